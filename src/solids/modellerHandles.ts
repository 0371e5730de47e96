/** An object in the modeller's own memory, which the garbage collector does not free. */
interface Handle {
  delete(): void;
  isDeleted(): boolean;
}

type Callable = (this: unknown, ...args: unknown[]) => unknown;

const isHandle = (value: unknown): value is Handle =>
  typeof value === 'object' && value !== null && typeof (value as Partial<Handle>).isDeleted === 'function';

/** Lifetime methods of every handle; they return no new object. */
const OF_EVERY_HANDLE = new Set(['constructor', 'clone', 'delete', 'deleteLater', 'isAliasOf', 'isDeleted']);

/**
 * Records every object that the module makes from then on, in constructors, functions, methods and the module's own code.
 * Returns a function that frees all recorded objects. Call it before the module's `setup`.
 *
 * The module's own collector misses objects returned by methods, and temporary lists of points: about 2.5 MB for each
 * change of a corner.
 */
export function trackHandles(module: object): () => void {
  const held: Handle[] = [];
  const recorded = <T>(made: T): T => {
    if (isHandle(made)) held.push(made);
    return made;
  };
  /** Copies properties too: an overloaded function reads its overload table from the replacement. */
  const recording = (original: Callable): Callable =>
    Object.assign(function (this: unknown, ...args: unknown[]) {
      return recorded(original.apply(this, args));
    }, original);
  const members = module as Record<string, unknown>;
  for (const [name, member] of Object.entries(members)) {
    if (typeof member !== 'function') continue;
    const { prototype } = member;
    if (!isHandleClass(prototype)) {
      if (name.startsWith('_')) members[name] = recording(member as Callable);
      continue;
    }
    for (const method of Object.getOwnPropertyNames(prototype)) {
      const { value } = Object.getOwnPropertyDescriptor(prototype, method) ?? {};
      if (typeof value === 'function' && !OF_EVERY_HANDLE.has(method)) prototype[method] = recording(value);
    }
    members[name] = new Proxy(member, {
      construct: (target, args, newTarget) => recorded(Reflect.construct(target, args, newTarget) as object),
    });
  }
  return () => {
    for (const handle of held.splice(0)) if (!handle.isDeleted()) handle.delete();
  };
}

const isHandleClass = (prototype: unknown): prototype is Record<string, Callable> =>
  typeof prototype === 'object' && prototype !== null && isHandle(Object.create(prototype));
