import type { ClearanceKind } from '../../clearance/clearance.ts';

/** Number of zones outside which a pair is measured, or the reason why it is not checked. */
export type AuditedTreatment = { kind: 'outsideZones'; zones: number } | { kind: 'notChecked'; why: string };

export interface AuditOptions {
  /** Step between clockings, degrees; undefined to skip them. */
  clockingStepDeg?: number | undefined;
  signal?: AbortSignal;
  /**
   * `onClocking` reports the clockings, which come first; `onProgress` the pairs. Both get the number done and the
   * number of all.
   */
  onProgress?: (done: number, total: number) => void;
  onClocking?: (done: number, total: number) => void;
}

/** A pair to audit. `checked`: its index among the checked pairs, if it is one. */
export interface ToAudit {
  a: number;
  b: number;
  checked: number | undefined;
  treatment: AuditedTreatment;
}

/** The engine's result, and whether it reports the pair as clear. */
export interface EngineResult {
  kind: ClearanceKind;
  isClear: boolean;
}
