import { type RatesRequest, serveRates } from '../../../studies/sensitivity/ratesProtocol.ts';

const answer = serveRates((message) => self.postMessage(message));
self.addEventListener('message', ({ data }: MessageEvent<RatesRequest>) => answer(data));
