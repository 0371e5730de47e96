/** An event of a browser's trace; times in microseconds. */
interface TraceEvent {
  name: string;
  ph: string;
  pid: number;
  tid: number;
  ts: number;
  dur?: number;
  /** Of the time, what the thread had a core for. */
  tdur?: number;
  args: { name?: string; data?: { type?: string; cpuProfile?: Profile; timeDeltas?: number[] } };
  id?: string;
}

interface Profile {
  nodes?: {
    id: number;
    parent?: number;
    callFrame: { functionName: string; url?: string; lineNumber?: number };
  }[];
  samples?: number[];
}

export interface LongTask {
  /** From the first event of the trace. */
  atMs: number;
  ms: number;
  /** Of that, what the thread had a core for: the rest went to other threads and programs, or to waiting. */
  cpuMs: number;
  /** Names of what ran, with the time that each took itself, the longest first. */
  within: { name: string; ms: number }[];
  /** Functions of the script that the sampler met, the most often first. */
  functions: { name: string; ms: number }[];
}

/** What must be asked of a trace for `scriptByFrame`. */
export const TRACED_SCRIPT = ['devtools.timeline', 'toplevel', 'v8'];

/** What must be asked of a trace for `longTasks`. */
export const TRACED = [
  ...TRACED_SCRIPT,
  'disabled-by-default-devtools.timeline',
  'gpu',
  'disabled-by-default-v8.cpu_profiler',
];

/** Tasks of the page's main thread above `leastMs` in a trace, and what they were. */
export function longTasks(trace: { traceEvents: TraceEvent[] }, leastMs: number): LongTask[] {
  const events = trace.traceEvents;
  const mains = events.filter(({ name, args }) => name === 'thread_name' && args.name === 'CrRendererMain');
  const begin = events.reduce(
    (least, { ts }) => (ts > 0 ? Math.min(least, ts) : least),
    Number.POSITIVE_INFINITY,
  );
  return mains.flatMap(({ pid, tid }) => {
    const own = events.filter((event) => event.pid === pid && event.tid === tid && event.ph === 'X');
    own.sort((a, b) => a.ts - b.ts || (b.dur ?? 0) - (a.dur ?? 0));
    const samples = sampled(events, pid, tid);
    return own
      .filter(({ name, dur = 0 }) => name === 'RunTask' && dur >= 1000 * leastMs)
      .map((task) => {
        const end = task.ts + (task.dur ?? 0);
        const inside = own.filter(({ ts, dur = 0 }) => ts >= task.ts && ts + dur <= end);
        return {
          atMs: (task.ts - begin) / 1000,
          ms: (task.dur ?? 0) / 1000,
          cpuMs: (task.tdur ?? 0) / 1000,
          within: totals(selfTimes(inside)),
          functions: totals(samples.filter(({ ts }) => ts >= task.ts && ts <= end)),
        };
      });
  });
}

/**
 * What script took of the main thread between one frame of a trace and the next, ms, of the time that it had a core for,
 * frame by frame.
 */
export function scriptByFrame(trace: { traceEvents: TraceEvent[] }): number[] {
  const scripts = trace.traceEvents.filter(
    ({ name, ph }) => ph === 'X' && (name === 'V8.Execute' || name === 'V8.RunMicrotasks'),
  );
  const frames = trace.traceEvents.filter(({ name }) => name === 'FireAnimationFrame');
  const [main] = frames;
  if (main === undefined) return [];
  const begins = frames.filter(isOf(main)).map(({ ts }) => ts);
  const own = scripts.filter(isOf(main)).sort((a, b) => a.ts - b.ts || (b.dur ?? 0) - (a.dur ?? 0));
  let end = 0;
  // A script that is run by another is part of that one.
  const outer = own.filter(({ ts, dur = 0 }) => {
    if (ts < end) return false;
    end = ts + dur;
    return true;
  });
  return begins.slice(1).map((until, k) => {
    const within = outer.filter(({ ts }) => ts >= begins[k] && ts < until);
    return within.reduce((sum, { tdur = 0 }) => sum + tdur / 1000, 0);
  });
}

const isOf =
  (one: TraceEvent) =>
  ({ pid, tid }: TraceEvent): boolean =>
    pid === one.pid && tid === one.tid;

/** Time of each event without that of the events inside it. */
function selfTimes(events: TraceEvent[]): { name: string; us: number }[] {
  const open: { end: number; entry: { name: string; us: number } }[] = [];
  return events.map(({ name, ts, dur = 0 }) => {
    while (open.length > 0 && open[open.length - 1].end <= ts) open.pop();
    const outer = open[open.length - 1];
    if (outer !== undefined) outer.entry.us -= dur;
    const entry = { name, us: dur };
    open.push({ end: ts + dur, entry });
    return entry;
  });
}

function sampled(events: TraceEvent[], pid: number, tid: number): { name: string; us: number; ts: number }[] {
  const profiles = events.filter(
    (event) => event.pid === pid && event.tid === tid && event.name === 'Profile',
  );
  return profiles.flatMap((start) => {
    const startTime = (start.args.data as { startTime?: number } | undefined)?.startTime ?? start.ts;
    const chunks = events.filter(
      ({ name, id, pid: of }) => name === 'ProfileChunk' && id === start.id && of === pid,
    );
    chunks.sort((a, b) => a.ts - b.ts);
    const names = new Map<number, string>();
    let ts = startTime;
    return chunks.flatMap(({ args }) => {
      const { cpuProfile, timeDeltas = [] } = args.data ?? {};
      for (const { id, callFrame } of cpuProfile?.nodes ?? [])
        names.set(id, callFrame.functionName || 'anonymous');
      return (cpuProfile?.samples ?? []).map((node, i) => {
        ts += timeDeltas[i] ?? 0;
        return { name: names.get(node) ?? '?', us: timeDeltas[i + 1] ?? 0, ts };
      });
    });
  });
}

function totals(entries: readonly { name: string; us: number }[]): { name: string; ms: number }[] {
  const sums = new Map<string, number>();
  for (const { name, us } of entries) sums.set(name, (sums.get(name) ?? 0) + us / 1000);
  return [...sums]
    .map(([name, ms]) => ({ name, ms }))
    .filter(({ ms }) => ms >= 1)
    .sort((a, b) => b.ms - a.ms);
}
