/** Style sheet of the HTML report; it prints on A4 or Letter. */
export const STYLE = `
:root { --paper: #f4f2ec; --sheet: #fbfaf6; --ink: #1d2327; --soft: #5d666c; --line: #d5d1c6; --touch: #c2410c; --tight: #8f5c10; --clear: #3f6f63; color-scheme: light; }
* { box-sizing: border-box; }
body { margin: 0; background: var(--paper); color: var(--ink); font: 14px/1.45 system-ui, "Segoe UI", Roboto, "Helvetica Neue", Arial, sans-serif; }
main { max-width: 1040px; margin: 0 auto; padding: 28px 32px 48px; background: var(--sheet); }
h1 { font-size: 24px; margin: 0 0 2px; }
h2 { font-size: 16px; margin: 28px 0 6px; padding-top: 10px; border-top: 1px solid var(--line); break-after: avoid; }
p { margin: 6px 0; }
.subtitle { color: var(--soft); overflow-wrap: anywhere; }
.verdict { border-left: 6px solid var(--soft); padding: 8px 12px; margin: 14px 0; font-size: 15px; }
.verdict.touches { border-color: var(--touch); }
.verdict.tight { border-color: var(--tight); }
.verdict.clear { border-color: var(--clear); }
.verdict.touches strong, tr.touches td:nth-child(2), tr.binds td:nth-child(2) { color: var(--touch); }
.verdict.tight strong, tr.tight td:nth-child(2) { color: var(--tight); }
.verdict.clear strong, tr.clear td:nth-child(2) { color: var(--clear); }
tr.touches td:nth-child(2), tr.binds td:nth-child(2), tr.tight td:nth-child(2), tr.unknown td:nth-child(2) { font-weight: 600; white-space: nowrap; }
ul { margin: 6px 0; padding-left: 20px; }
ul.caution { border: 2px solid var(--ink); padding: 10px 14px 10px 32px; }
ul.caution li { margin: 3px 0; }
table { border-collapse: collapse; width: 100%; margin: 10px 0 16px; font-size: 12.5px; font-variant-numeric: tabular-nums; }
th, td { text-align: left; vertical-align: top; padding: 3px 10px 3px 0; border-bottom: 1px solid var(--line); overflow-wrap: break-word; }
th { color: var(--soft); font-weight: 600; }
td.long { overflow-wrap: anywhere; }
th.figure, td.figure { text-align: right; }
td.figure { white-space: nowrap; }
thead { display: table-header-group; }
tr { break-inside: avoid; }
details { margin: 8px 0; }
summary { cursor: pointer; color: var(--soft); font-weight: 600; }
a { color: #2b3f9e; }
figure { margin: 10px 0; break-inside: avoid; }
figure.aside { float: right; width: 44%; margin: 0 0 6px 16px; }
section { clear: both; }
svg { max-width: 100%; height: auto; print-color-adjust: exact; -webkit-print-color-adjust: exact; }
@page { margin: 14mm 12mm; }
@media print {
  section.page { break-before: page; }
  body, main { background: #fff; }
  body { font-size: 8.8pt; line-height: 1.35; }
  h1 { font-size: 15pt; }
  h2 { font-size: 11pt; margin: 9px 0 3px; padding-top: 6px; }
  .verdict { font-size: 9.5pt; margin: 8px 0; padding: 3px 10px; }
  ul.caution { padding: 5px 10px 5px 26px; }
  ul.caution li { margin: 1px 0; }
  main { max-width: none; padding: 0; }
  table { font-size: 7.5pt; }
  th, td { padding-right: 5px; }
}
`;
