import type { Context } from './context.ts';

/** Progress on standard error: on a terminal one line that is overwritten, otherwise a line for each tenth. */
export interface Progress {
  update(done: number, total: number): void;
  /** Number of cells checked so far in a proof: it grows while one pair takes long. */
  cells(count: number): void;
  end(): void;
}

const SILENT: Progress = { update() {}, cells() {}, end() {} };

/** Longest time between two lines while cells are checked, not on a terminal, ms. */
const LINE_MS = 5000;

/** Progress reports for a command. Silent if standard error is not a terminal, unless `always`. */
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
