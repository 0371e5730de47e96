/** An object in the modeller's own memory, which no garbage collector frees. */
interface Handle {
  delete(): void;
  isDeleted(): boolean;
}

type Callable = (this: unknown, ...args: unknown[]) => unknown;

const isHandle = (value: unknown): value is Handle =>
  typeof value === 'object' && value !== null && typeof (value as Partial<Handle>).isDeleted === 'function';

/** Methods that every handle has for its own life; what they return is no new object. */
const OF_EVERY_HANDLE = new Set(['constructor', 'clone', 'delete', 'deleteLater', 'isAliasOf', 'isDeleted']);

/**
 * Notes every object that the module makes from then on, whoever makes it: constructors, functions, methods, and the
 * module's own code on the way to a result. Returns a function that frees all that are not freed yet. To be called before
 * the module is set up.
 *
 * The collector that comes with the module does not see what methods return, nor the lists of points that the module makes
 * on its way: some 2.5 MB for each change of a corner.
 */
export function trackHandles(module: object): () => void {
  const held: Handle[] = [];
  const noted = <T>(made: T): T => {
    if (isHandle(made)) held.push(made);
    return made;
  };
  /** Properties go along: a function with overloads looks them up on the one that stands in its place. */
  const noting = (original: Callable): Callable =>
    Object.assign(function (this: unknown, ...args: unknown[]) {
      return noted(original.apply(this, args));
    }, original);
  const members = module as Record<string, unknown>;
  for (const [name, member] of Object.entries(members)) {
    if (typeof member !== 'function') continue;
    const { prototype } = member;
    if (!isHandleClass(prototype)) {
      if (name.startsWith('_')) members[name] = noting(member as Callable);
      continue;
    }
    for (const method of Object.getOwnPropertyNames(prototype)) {
      const { value } = Object.getOwnPropertyDescriptor(prototype, method) ?? {};
      if (typeof value === 'function' && !OF_EVERY_HANDLE.has(method)) prototype[method] = noting(value);
    }
    members[name] = new Proxy(member, {
      construct: (target, args, newTarget) => noted(Reflect.construct(target, args, newTarget) as object),
    });
  }
  return () => {
    for (const handle of held.splice(0)) if (!handle.isDeleted()) handle.delete();
  };
}

const isHandleClass = (prototype: unknown): prototype is Record<string, Callable> =>
  typeof prototype === 'object' && prototype !== null && isHandle(Object.create(prototype));
