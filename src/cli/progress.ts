import type { Context } from './context.ts';

/** Reports of progress on standard error: one line written over on a terminal, a line each tenth elsewhere. */
export interface Progress {
  update(done: number, total: number): void;
  /** Cells of a proof looked at so far: these go on where one pair takes long. */
  cells(count: number): void;
  end(): void;
}

const SILENT: Progress = { update() {}, cells() {}, end() {} };

/** Where each report is a line, one is written at least this often while cells are looked at, ms. */
const LINE_MS = 5000;

/** Says nothing where standard error is not a terminal, unless `always`. */
export function progressOn({ stderr }: Context, what: string, always: boolean): Progress {
  let soFar = what;
  if (stderr.isTTY) {
    return {
      update(done, total) {
        soFar = `${what}: ${done} of ${total}`;
        stderr.write(`\r${soFar}\x1b[K`);
      },
      cells: (count) => stderr.write(`\r${soFar}, ${count} cells\x1b[K`),
      end: () => stderr.write('\r\x1b[K'),
    };
  }
  if (!always) return SILENT;
  let tenths = -1;
  let lineAtMs = performance.now();
  const line = (text: string) => {
    lineAtMs = performance.now();
    stderr.write(`${text}\n`);
  };
  return {
    update(done, total) {
      soFar = `${what}: ${done} of ${total}`;
      const now = Math.floor((10 * done) / total);
      if (now === tenths) return;
      tenths = now;
      line(soFar);
    },
    cells(count) {
      if (performance.now() - lineAtMs >= LINE_MS) line(`${soFar}, ${count} cells`);
    },
    end() {},
  };
}
