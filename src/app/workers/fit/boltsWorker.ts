import { expose } from 'comlink';
import { boltsLines } from '../../../report/bolts/boltsLines.ts';

const api = { checkBolts: boltsLines };
export type BoltsApi = typeof api;
expose(api);
