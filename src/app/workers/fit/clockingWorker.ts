import { type ClockingRequest, serveClocking } from '../../../studies/clocking/clockingProtocol.ts';

const answer = serveClocking((message) => self.postMessage(message));
self.addEventListener('message', ({ data }: MessageEvent<ClockingRequest>) => answer(data));
