import type { CollectorPlan } from '../params/plan.js';

/**
 * The orders in which the primaries of a collector may meet its inlets: the cylinder at inlet 1, 2, ...
 * `given` is one order; `free` is every order; `firing` keeps cylinders that fire one after another in neighbouring inlets,
 * either way round and from any inlet.
 */
export function inletOrders(collector: CollectorPlan, firingOrder: readonly number[]): readonly (readonly number[])[] {
  const { order, cylinders } = collector;
  if (order.kind === 'given') return [order.cylinders];
  if (order.kind === 'free') return permutations(cylinders);
  const fired = firingOrder.filter((c) => cylinders.includes(c));
  const both = [fired, [...fired].reverse()];
  const turned = both.flatMap((f) => f.map((_, i) => [...f.slice(i), ...f.slice(0, i)]));
  return unique(turned);
}

/** Every order of a list, in lexicographic order of places. */
export function permutations<T>(list: readonly T[]): T[][] {
  if (list.length <= 1) return [[...list]];
  return list.flatMap((head, i) =>
    permutations([...list.slice(0, i), ...list.slice(i + 1)]).map((tail) => [head, ...tail]),
  );
}

function unique(orders: number[][]): number[][] {
  return [...new Map(orders.map((o) => [o.join(), o])).values()];
}
