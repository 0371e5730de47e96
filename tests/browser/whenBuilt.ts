import { inject } from 'vitest';

// Each file waits until the pages are built: the time limits of its tests begin after that.
const { ok, statusText } = await fetch(inject('pagesUrl'));
if (!ok) throw new Error(`the pages could not be built: ${statusText}`);
