import { describe } from 'vitest';
import { byMouse } from './tour/hand.ts';
import { TASKS } from './tour/tasks.ts';
import { testTasks } from './tour/testTasks.ts';

/** Tasks that are done differently by mouse: a drag of a slider, a click into a field, a click in a list. */
const DIFFERS = ['lock-that-hits', 'dimension-typed', 'two-poses'];

describe('by mouse a person', () =>
  testTasks(
    TASKS.filter(({ id }) => DIFFERS.includes(id)),
    byMouse,
  ));
