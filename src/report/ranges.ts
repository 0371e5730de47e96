/** A block of neighbouring steps: all travel rows and steer columns between the ends, both included. */
export interface StepBlock {
  travelFrom: number;
  travelTo: number;
  steerFrom: number;
  steerTo: number;
}

/**
 * Groups steps (`travelIndex * steerSteps + steerIndex`) into blocks: runs along steer, joined over neighbouring travel rows
 * with the same run. The blocks contain each given step once and no other step.
 */
export function stepBlocks(steps: readonly number[], steerSteps: number): StepBlock[] {
  const blocks: StepBlock[] = [];
  let open: StepBlock[] = [];
  const rows = new Map<number, number[]>();
  for (const step of [...steps].sort((a, b) => a - b)) {
    const row = Math.floor(step / steerSteps);
    rows.set(row, [...(rows.get(row) ?? []), step % steerSteps]);
  }
  for (const [row, columns] of rows) {
    const runs: StepBlock[] = [];
    for (const column of columns) {
      const last = runs.at(-1);
      if (last?.steerTo === column - 1) last.steerTo = column;
      else runs.push({ travelFrom: row, travelTo: row, steerFrom: column, steerTo: column });
    }
    open = runs.map((run) => {
      const above = open.find(
        (one) => one.travelTo === row - 1 && one.steerFrom === run.steerFrom && one.steerTo === run.steerTo,
      );
      if (above === undefined) {
        blocks.push(run);
        return run;
      }
      above.travelTo = row;
      return above;
    });
  }
  return blocks;
}
