import type { Frame } from '../geometry/frame.js';
import { distance } from '../geometry/vec3.js';
import type { CollectorPlan, GivenRoute, Plan } from '../params/plan.js';

/** Which tube may stand at which inlet of a collector. */
export interface AllowedOrders {
  /** The keys at inlets 1, 2, ... of every allowed order; null when every order is allowed. Empty when none can be. */
  readonly orders: readonly (readonly number[])[] | null;
  /** Inlets that routes given by hand hold: inlet from 1, by key. */
  readonly held: ReadonlyMap<number, number>;
  /** False when routes given by hand go against the order the plan asks for; the orders are then those that fit the routes. */
  readonly asPlanned: boolean;
}

/**
 * The orders in which tubes may meet the inlets of a collector: the key (cylinder, or place among the feeders) at inlet 1, 2, ...
 * `given` is one order; `free` is every order (null); `firing` keeps cylinders that fire one after another in neighbouring inlets,
 * either way round and from any inlet.
 */
export function inletOrders(
  collector: CollectorPlan,
  firingOrder: readonly number[],
): readonly (readonly number[])[] | null {
  const { order, cylinders } = collector;
  if (order.kind === 'given') return [order.cylinders];
  if (order.kind === 'free' || cylinders.length === 0) return null;
  const fired = firingOrder.filter((c) => cylinders.includes(c));
  const both = [fired, [...fired].reverse()];
  const turned = both.flatMap((f) => f.map((_, i) => [...f.slice(i), ...f.slice(0, i)]));
  return [...new Map(turned.map((o) => [o.join(), o])).values()];
}

/** The orders a collector allows beside the routes given by hand, each of which keeps the inlet it names or ends nearest to. */
export function ordersFor(c: CollectorPlan, plan: Plan, inlets: readonly Frame[]): AllowedOrders {
  const given = plan.runners.given.filter((g) => c.cylinders.includes(g.cylinder));
  const held = new Map(given.map((g) => [g.cylinder, givenInlet(g, inlets)]));
  if (new Set(held.values()).size < held.size) return { orders: [], held, asPlanned: false };
  const asked = inletOrders(c, plan.engine.firingOrder);
  const fits = (order: readonly number[]): boolean => [...held].every(([key, inlet]) => order[inlet - 1] === key);
  if (asked === null) return { orders: null, held, asPlanned: true };
  const fitting = asked.filter(fits);
  return fitting.length > 0 ? { orders: fitting, held, asPlanned: true } : { orders: null, held, asPlanned: false };
}

/** The inlet, from 1, that a route given by hand names or ends nearest to. */
export function givenInlet(given: GivenRoute, inlets: readonly Frame[]): number {
  if (given.inlet !== null) return given.inlet;
  const end = given.points[given.points.length - 1]!;
  const away = inlets.map((inlet) => distance(inlet.origin, end));
  return away.indexOf(Math.min(...away)) + 1;
}

/** The inlets, from 1, that a key may take at a collector with so many. */
export function inletsOf(allowed: AllowedOrders, key: number, count: number): number[] {
  const own = allowed.held.get(key);
  if (own !== undefined) return [own];
  const taken = new Set(allowed.held.values());
  const all = Array.from({ length: count }, (_, i) => i + 1).filter((i) => !taken.has(i));
  if (allowed.orders === null) return all;
  const named = new Set(allowed.orders.map((o) => o.indexOf(key) + 1));
  return all.filter((i) => named.has(i));
}

/** True when some allowed order has these keys at these inlets (from 1). */
export function orderAllows(allowed: AllowedOrders, places: readonly { key: number; inlet: number }[]): boolean {
  if (allowed.orders) return allowed.orders.some((o) => places.every((p) => o[p.inlet - 1] === p.key));
  return new Set(places.map((p) => p.inlet)).size === places.length;
}
