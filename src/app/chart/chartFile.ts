/** A chart as a file: drawing, picture or numbers. */
import type { Table } from "../../charts/kit/drawing.ts";
import { standaloneSvg } from "../../charts/kit/exportSvg.ts";
import type { Setup } from "../../setup/setup.ts";
import { download } from "../shell/download.ts";
import { shownTheme } from "../shell/look/theme.ts";
import { setupFileName } from "../state/keeping/setupFileName.ts";

/** Pixels of a picture for each of the drawing. */
const FINENESS = 2;

/** A file's name without its ending: the setup's, then the chart's. */
export const chartFileName = (setup: Setup, chart: string): string =>
  `${setupFileName(setup).replace(/\.setup\.json$/, "")}-${chart}`;

export function saveSvg(svg: SVGSVGElement, name: string): void {
  download(svgBlob(svg), `${name}.svg`);
}

export async function savePng(svg: SVGSVGElement, name: string): Promise<void> {
  const address = URL.createObjectURL(svgBlob(svg));
  try {
    const image = new Image();
    image.src = address;
    await image.decode();
    const canvas = document.createElement("canvas");
    canvas.width = FINENESS * image.naturalWidth;
    canvas.height = FINENESS * image.naturalHeight;
    canvas.getContext("2d")!.drawImage(image, 0, 0, canvas.width, canvas.height);
    const blob = await new Promise<Blob | null>((done) => canvas.toBlob(done, "image/png"));
    if (!blob) throw new Error("the browser made no picture");
    download(blob, `${name}.png`);
  } finally {
    URL.revokeObjectURL(address);
  }
}

/** The writer comes when it is first asked for: no chart waits for it. */
export async function saveCsv(table: Table, name: string): Promise<void> {
  const { tableCsv } = await import("../../charts/kit/tableCsv.ts");
  download(new Blob([tableCsv(table)], { type: "text/csv;charset=utf-8" }), `${name}.csv`);
}

const svgBlob = (svg: SVGSVGElement): Blob =>
  new Blob([standaloneSvg(svg, shownTheme())], { type: "image/svg+xml" });
