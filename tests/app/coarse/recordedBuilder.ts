import { NO_ASSETS } from '../../../src/design/assets.ts';
import { PoolWorker } from '../../../src/executors/poolWorker.ts';
import type { Reply, Request } from '../../../src/executors/protocol.ts';
import type { Built } from '../../../src/sweep/setUp.ts';
import { addressFor, record, recordAt } from './records.ts';

type Kind = Request['kind'] & Reply['kind'];
type Of<M, K extends Kind> = Extract<M, { kind: K }>;
type Rest = [transfer?: readonly MessagePort[], onCells?: (cells: number) => void];

/** As a page opens it measures one pose, and a band for each of its two charts. */
const RECORDED_REQUESTS = 3;

/**
 * A builder that takes a built corner, and what a page measures as it opens, from the server, if a page of this test run has
 * built the same file. The worker starts with the first request that needs it, and then gets the built corner.
 */
export class RecordedBuilder extends PoolWorker {
  /** A corner taken from the server that the worker has not received. */
  private unsent: Built | undefined;
  private hasBuilt = false;
  /** The current corner, with the number of its requests that were looked up. */
  private corner: { address: string; requests: number } | undefined;

  override request<K extends Kind>(request: Of<Request, K>, ...rest: Rest): Promise<Of<Reply, K>> {
    const asked: Request = request;
    let reply: Promise<Reply>;
    if (asked.kind === 'open') reply = this.open(asked);
    else if (asked.kind === 'pose' || asked.kind === 'between') reply = this.measure(asked);
    else reply = this.send(request, ...rest);
    return reply as Promise<Of<Reply, K>>;
  }

  private async open(request: Of<Request, 'open'>): Promise<Of<Reply, 'open'>> {
    this.corner = undefined;
    const { files, settings } = request;
    // A worker that has built a corner builds its changes in less time. No demo and no fixture has files beside it.
    if (this.hasBuilt || files.assets.size > 0) return this.send(request);
    const address = await addressFor(JSON.stringify([files.text, settings]));
    const recorded = await recordAt<Built>(address);
    let built: Built;
    if (recorded === undefined) {
      ({ built } = await this.send(request));
      this.hasBuilt = true;
      await record(address, { ...built, design: { ...built.design, assets: undefined } });
    } else {
      built = { ...recorded, design: { ...recorded.design, assets: NO_ASSETS } };
      this.unsent = built;
    }
    this.corner = { address, requests: 0 };
    return { kind: 'open', built };
  }

  private async measure(request: Of<Request, 'pose' | 'between'>): Promise<Reply> {
    const { corner } = this;
    if (corner === undefined || corner.requests === RECORDED_REQUESTS) return this.send(request);
    corner.requests += 1;
    const address = await addressFor(JSON.stringify([corner.address, request]));
    const recorded = await recordAt<Reply>(address);
    if (recorded !== undefined) return recorded;
    // What is measured on the next corner must not be recorded for this one.
    const isOfCorner = this.corner === corner;
    const reply = await this.send(request);
    if (isOfCorner) await record(address, reply);
    return reply;
  }

  private send<K extends Kind>(request: Of<Request, K>, ...rest: Rest): Promise<Of<Reply, K>> {
    const { unsent: built } = this;
    this.unsent = undefined;
    // If it fails, so does the request.
    if (built !== undefined) super.request({ kind: 'setBuilt', built }).catch(() => {});
    return super.request(request, ...rest);
  }
}
