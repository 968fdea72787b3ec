/** The numbers of a drawing as a file for a spreadsheet: RFC 4180, so lines end in both marks. */
import { csvOfRows } from "../../units/delimitedText.ts";
import type { Table } from "./drawing.ts";

export const tableCsv = ({ columns, rows }: Table): string => csvOfRows([columns, ...rows], "\r\n");
