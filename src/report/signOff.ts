import type { Section } from './content.ts';

/** What people sign for, with blank cells for names and dates. */
const SIGNED_FOR = [
  'Measured the assumed values, or accepts them',
  'Moved the mock-up by hand through all travel and steering',
  'Checked every gap of the tightest pairs on the mock-up',
  'Checked what is not modelled',
  'Approved by whoever the local code, the scrutineers or the risk require',
];

/** Last section: the table to sign. */
export const signOffSection = (): Section => ({
  title: 'Signing off',
  blocks: [
    {
      kind: 'table',
      columns: [{ title: 'Done' }, { title: 'Name' }, { title: 'Date' }, { title: 'Signature' }],
      rows: SIGNED_FOR.map((done) => ({ cells: [done, '', '', ''] })),
    },
  ],
});
