import { describe } from 'vitest';
import { byKeyboard } from './tour/hand.ts';
import { TASKS } from './tour/tasks.ts';
import { testTasks } from './tour/testTasks.ts';

describe('by keyboard alone a person', () => testTasks(TASKS, byKeyboard));
