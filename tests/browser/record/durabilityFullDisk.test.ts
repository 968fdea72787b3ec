import { execFileSync } from "node:child_process";
import {
  closeSync,
  mkdtempSync,
  openSync,
  rmSync,
  statfsSync,
  statSync,
  truncateSync,
  writeSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it, onTestFinished } from "vitest";
import { answered, showsGap, typeGap } from "../gap/sheet.ts";
import { keep, message, recordIsThere, row, rows } from "./jobs.ts";
import { copySays, said, shownGaps, start } from "./profile.ts";

const volume = mkdtempSync(join(tmpdir(), "annulus-volume-"));
const mount = () =>
  execFileSync("mount", ["-t", "tmpfs", "-o", "size=120m", "tmpfs", volume], { stdio: "pipe" });
const unmount = () => execFileSync("umount", ["-l", volume]);

/** Whether the machine lets a small volume be mounted. */
function canMount(): boolean {
  try {
    mount();
    unmount();
    return true;
  } catch {
    return false;
  }
}

const filler = () => join(volume, "filler");

const room = () => {
  const { bavail, bsize } = statfsSync(volume);
  return bavail * bsize;
};

/** To the last byte, but for what is to be left. */
function fill(leftBytes = 0): void {
  const file = openSync(filler(), "a");
  for (const size of [1 << 20, 1 << 12, 1])
    try {
      while (room() - size >= leftBytes) writeSync(file, Buffer.alloc(size));
    } catch {
      // not so much any more
    }
  closeSync(file);
}

/** Gives back what the browser has taken of what was to be left. */
function giveBack(takenBytes: number): void {
  truncateSync(filler(), Math.max(0, statSync(filler()).size - takenBytes));
}

/**
 * As full from now on as it is to be: what the browser gives up of its caches is taken at once, and what it writes into
 * them is given back, but not before a second look, for it tries the room there is and lets go of it again. The answer
 * ends it, and so does the end of the test.
 */
function keepFull(leftBytes = 0): () => void {
  fill(leftBytes);
  let wasTakenBytes = 0;
  const again = setInterval(() => {
    const takenBytes = leftBytes - room();
    if (takenBytes <= 0) fill(leftBytes);
    else if (wasTakenBytes > 0) giveBack(Math.min(takenBytes, wasTakenBytes));
    wasTakenBytes = takenBytes;
  }, 50);
  const end = () => clearInterval(again);
  onTestFinished(end);
  return end;
}

// said with its reason, and nowhere but where a volume cannot be mounted
describe.skipIf(!canMount())("a full disk (skipped where mounting a small volume is not allowed)", () => {
  beforeAll(mount);
  afterAll(() => {
    unmount();
    rmSync(volume, { recursive: true });
  });
  const profile = join(volume, "profile");

  it("loses no job and nothing typed before it was full, and says what is not kept", async () => {
    const first = await start(profile, "#jobs");
    await recordIsThere(first.page);
    await keep(first.page, "One");
    for (const [i, title] of ["Two", "Three"].entries()) {
      await first.page.getByTestId("new-same").click();
      await expect.poll(() => rows(first.page).count()).toBe(i + 2);
      await first.page.getByTestId("open-fields").getByTestId("job-title").getByRole("textbox").fill(title);
      await first.page.getByTestId("open-fields").getByTestId("job-title").getByRole("textbox").press("Tab");
      await row(first.page, title).waitFor();
    }
    await first.page.getByTestId("task-explore").click();
    await typeGap(first.page, "1.25 mm");
    await expect.poll(() => copySays(first.page, "jobs", '"gapMm":1.25,')).toBe(true);

    const makeRoom = keepFull();
    await typeGap(first.page, "1.75 mm");
    await message(first.page)
      .getByText(/cannot write to the disk|storage is full/)
      .first()
      .waitFor();
    await first.page.getByTestId("task-jobs").click();
    await first.page.getByTestId("no-record").waitFor();
    await first.kill();

    // while it is full: what was open is there, and that the jobs cannot be reached is said
    const full = await start(profile);
    await answered(full.page);
    expect(["1.25 mm", "1.75 mm"]).toContain((await shownGaps(full.page))[0]);
    await full.kill();

    makeRoom();
    rmSync(filler());
    const again = await start(profile, "#jobs", { hasModel: false });
    await recordIsThere(again.page);
    for (const title of ["One", "Two", "Three"]) await row(again.page, title).first().waitFor();
    expect(await rows(again.page).count()).toBe(3);
    await again.page.getByTestId("task-explore").click();
    await again.page.getByTestId("gap-value").waitFor();
    expect(["1.25 mm", "1.75 mm"]).toContain((await shownGaps(again.page))[0]);
    await again.kill();
  });

  it("whose database the browser has thrown away brings the jobs back from the copy", async () => {
    rmSync(join(profile, "Default", "IndexedDB"), { recursive: true });
    const { page, kill } = await start(profile, "#jobs", { hasModel: false });
    await message(page)
      .getByText(/had lost its database.*“One”, “Three”, “Two” are back, from the second copy/)
      .waitFor();
    await expect.poll(() => rows(page).count()).toBe(3);
    await kill();
  });

  it("is warned of while there is some room left", async () => {
    const makeRoom = keepFull(3 << 20);
    const { page, kill } = await start(profile);
    await expect
      .poll(() => said(page), { timeout: 60_000 })
      .toEqual(expect.arrayContaining([expect.stringContaining("hardly any room left")]));
    await kill();
    makeRoom();
    rmSync(filler());
    const again = await start(profile);
    await answered(again.page);
    await typeGap(again.page, "1.5 mm");
    await showsGap(again.page, "1.50 mm");
    expect(await message(again.page).count()).toBe(0);
    await again.kill();
  });
});
