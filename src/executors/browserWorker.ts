import { type Request, serve } from './protocol.ts';

const answer = serve((message, transfer) => self.postMessage(message, { transfer }));
self.addEventListener('message', (event: MessageEvent<Request>) => answer(event.data));
