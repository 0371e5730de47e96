import { type SpaceRequestMessage, serveSpace } from '../../../studies/sweptSpace/spaceProtocol.ts';

const answer = serveSpace((message, transfer = []) => self.postMessage(message, { transfer }));
self.addEventListener('message', ({ data }: MessageEvent<SpaceRequestMessage>) => answer(data));
