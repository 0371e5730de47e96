import type { Context } from './context.ts';

/** Reports of progress on standard error: one line written over on a terminal, a line each tenth elsewhere. */
export interface Progress {
  update(done: number, total: number): void;
  end(): void;
}

const SILENT: Progress = { update() {}, end() {} };

/** Says nothing where standard error is not a terminal, unless `always`. */
export function progressOn({ stderr }: Context, what: string, always: boolean): Progress {
  if (stderr.isTTY) {
    return {
      update: (done, total) => stderr.write(`\r${what}: ${done} of ${total}`),
      end: () => stderr.write('\r\x1b[K'),
    };
  }
  if (!always) return SILENT;
  let tenths = -1;
  return {
    update(done, total) {
      const now = Math.floor((10 * done) / total);
      if (now === tenths) return;
      tenths = now;
      stderr.write(`${what}: ${done} of ${total}\n`);
    },
    end() {},
  };
}
