import { expose } from 'comlink';
import { afterEach, describe, expect, it } from 'vitest';
import { callOnce, NewestRequest, RemoteWorker } from '../../../src/app/workers/remote.ts';

const api = {
  sum: (a: number, b: number) => a + b,
  fail(): number {
    throw new Error('out of memory');
  },
  endless: () => new Promise<number>(() => {}),
  async count(onProgress: (done: number) => void): Promise<string> {
    for (let done = 1; done <= 3; done++) await onProgress(done);
    return 'counted';
  },
};
type Api = typeof api;

const open: { close(): void }[] = [];
afterEach(() => {
  for (const channel of open.splice(0)) channel.close();
});

/** A worker in this thread: a message port with the events of a worker. */
class LocalWorker extends EventTarget {
  terminated = false;
  private readonly port: MessagePort;

  constructor() {
    super();
    const { port1, port2 } = new MessageChannel();
    open.push({ close: () => port1.close() });
    expose(api, port2);
    this.port = port1;
    port1.start();
  }

  postMessage(message: unknown, transfer: Transferable[] = []): void {
    this.port.postMessage(message, transfer);
  }

  override addEventListener(type: string, listener: EventListener): void {
    if (type === 'message') this.port.addEventListener(type, listener as never);
    else super.addEventListener(type, listener);
  }

  override removeEventListener(type: string, listener: EventListener): void {
    if (type === 'message') this.port.removeEventListener(type, listener as never);
    else super.removeEventListener(type, listener);
  }

  terminate(): void {
    this.terminated = true;
    this.port.close();
  }

  die(message: string): void {
    this.dispatchEvent(Object.assign(new Event('error'), { message }));
  }
}

const started = () => {
  const local = new LocalWorker();
  return { local, worker: local as unknown as Worker };
};

const settled = (promise: Promise<unknown>): Promise<string> =>
  Promise.race([
    promise.then(
      () => 'resolved',
      () => 'rejected',
    ),
    new Promise<string>((resolve) => setTimeout(() => resolve('pending'), 30)),
  ]);

describe('a call in its own worker', () => {
  it('returns the result and ends the worker', async () => {
    const { local, worker } = started();
    expect(await callOnce<Api, number>(worker, (remote) => remote.sum(2, 3)).result).toBe(5);
    expect(local.terminated).toBe(true);
  });

  it('rejects with the message of a call that fails', async () => {
    const { local, worker } = started();
    await expect(callOnce<Api, number>(worker, (remote) => remote.fail()).result).rejects.toThrow(
      'out of memory',
    );
    expect(local.terminated).toBe(true);
  });

  it('rejects with the reason if the worker dies', async () => {
    const { local, worker } = started();
    const { result } = callOnce<Api, number>(worker, (remote) => remote.endless());
    local.die('its script could not be loaded');
    await expect(result).rejects.toThrow('its script could not be loaded');
  });

  it('reports progress until it is cancelled, and then never settles', async () => {
    const { local, worker } = started();
    const progress: number[] = [];
    await new Promise<void>((resolve) => {
      const call = callOnce<Api, string>(worker, (remote, callback) =>
        remote.count(
          callback((done: number) => {
            progress.push(done);
            if (done < 2) return;
            call.cancel();
            resolve();
          }),
        ),
      );
      call.result.finally(() => progress.push(Number.NaN));
    });
    await new Promise((resolve) => setTimeout(resolve, 30));
    expect(progress).toEqual([1, 2]);
    expect(local.terminated).toBe(true);
  });
});

describe('a worker that stays', () => {
  it('runs calls until it dies, and then rejects them', async () => {
    const { local, worker } = started();
    const deaths: string[] = [];
    const remote = new RemoteWorker<Api>(worker, (why) => deaths.push(why));
    expect(await remote.call((functions) => functions.sum(1, 1))).toBe(2);
    expect(remote.ended).toBe(false);
    local.die('killed');
    expect([remote.ended, deaths]).toEqual([true, ['killed']]);
    await expect(remote.call((functions) => functions.endless())).rejects.toThrow('killed');
  });
});

describe('the newest request', () => {
  /** Requests that `end` completes, and the order in which they start. */
  function requests() {
    const order: string[] = [];
    const finish = new Map<string, () => void>();
    const request = (name: string) => () => {
      order.push(name);
      return new Promise<string>((resolve) => finish.set(name, () => resolve(name)));
    };
    const end = async (name: string) => {
      finish.get(name)?.();
      await new Promise((resolve) => setTimeout(resolve));
    };
    return { order, request, end };
  }

  it('supersedes those that wait, but not those that are kept', async () => {
    const { order, request, end } = requests();
    const newest = new NewestRequest();
    const first = newest.run(request('first'));
    const second = newest.run(request('second'));
    const kept = newest.run(request('kept'), true);
    const last = newest.run(request('last'));
    for (const name of ['first', 'kept', 'last']) await end(name);
    expect(order).toEqual(['first', 'kept', 'last']);
    expect(await Promise.all([first, kept, last])).toEqual(['first', 'kept', 'last']);
    expect(await settled(second)).toBe('pending');
  });

  it('runs after one that failed', async () => {
    const newest = new NewestRequest();
    const failing = newest.run(() => Promise.reject(new Error('no')));
    const next = newest.run(() => Promise.resolve('yes'));
    await expect(failing).rejects.toThrow('no');
    expect(await next).toBe('yes');
  });

  it('drops what waits when cleared', async () => {
    const { order, request, end } = requests();
    const newest = new NewestRequest();
    void newest.run(request('first'));
    const waiting = newest.run(request('waiting'), true);
    newest.clear();
    await end('first');
    expect(order).toEqual(['first']);
    expect(await settled(waiting)).toBe('pending');
  });
});
