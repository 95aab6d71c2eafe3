import { describe, expect, it } from 'vitest';
import { WORLD } from '../../src/geometry/frame.js';
import type { CollectorPlan } from '../../src/params/plan.js';
import { inletOrders, inletsOf, orderAllows } from '../../src/routing/inlet-order.js';

const collector = (order: CollectorPlan['order']): CollectorPlan => ({
  name: 'collector',
  cylinders: [1, 2, 3, 4],
  from: [],
  frame: WORLD,
  inletGap: 4,
  mergeHalfAngle: 0.14,
  order,
  outlet: { od: 63.5, wall: 1.6, coneLength: 100, tail: 40, throat: null },
  centre: 'open',
  slip: null,
  branch: null,
  freedom: null,
});

function permutationsOf(keys: readonly number[]): number[][] {
  if (keys.length === 0) return [[]];
  return keys.flatMap((k) => permutationsOf(keys.filter((o) => o !== k)).map((rest) => [k, ...rest]));
}

describe('orders round a collector', () => {
  it('free: every order', () => {
    const orders = inletOrders(collector({ kind: 'free' }), [1, 3, 4, 2]);
    const allowed = { orders, held: new Map(), asPlanned: true };
    const whole = permutationsOf([1, 2, 3, 4]);
    expect(whole).toHaveLength(24);
    for (const order of whole) {
      expect(
        orderAllows(
          allowed,
          order.map((key, i) => ({ key, inlet: i + 1 })),
        ),
      ).toBe(true);
    }
    expect(
      orderAllows(allowed, [
        { key: 1, inlet: 2 },
        { key: 3, inlet: 2 },
      ]),
    ).toBe(false);
    for (const key of [1, 2, 3, 4]) expect(inletsOf(allowed, key, 4)).toEqual([1, 2, 3, 4]);
  });

  it('firing: neighbours fire one after another, from any inlet and either way round', () => {
    const orders = inletOrders(collector({ kind: 'firing' }), [1, 3, 4, 2])!;
    expect(orders).toHaveLength(8);
    // common practice, no source: in a 1-3-4-2 four, cylinders 1 and 4, and 2 and 3, stand opposite each other in the collector
    for (const o of orders) {
      expect(Math.abs(o.indexOf(1) - o.indexOf(4))).toBe(2);
      expect(Math.abs(o.indexOf(2) - o.indexOf(3))).toBe(2);
    }
  });

  it('firing with three of six cylinders: all orders are neighbours round a ring of three', () => {
    const three = { ...collector({ kind: 'firing' }), cylinders: [1, 2, 3] };
    expect(inletOrders(three, [1, 5, 3, 6, 2, 4])).toHaveLength(6);
  });

  it('firing: half an order is allowed where it can be completed, and no further', () => {
    const orders = inletOrders(collector({ kind: 'firing' }), [1, 3, 4, 2]);
    const allowed = { orders, held: new Map(), asPlanned: true };
    expect(
      orderAllows(allowed, [
        { key: 1, inlet: 1 },
        { key: 4, inlet: 3 },
      ]),
    ).toBe(true);
    expect(
      orderAllows(allowed, [
        { key: 1, inlet: 1 },
        { key: 4, inlet: 2 },
      ]),
    ).toBe(false);
  });

  it('an inlet held by a route given by hand is left to it alone', () => {
    const allowed = { orders: null, held: new Map([[2, 3]]), asPlanned: true };
    expect(inletsOf(allowed, 2, 4)).toEqual([3]);
    expect(inletsOf(allowed, 1, 4)).toEqual([1, 2, 4]);
  });

  it('given: just that one', () => {
    expect(inletOrders(collector({ kind: 'given', cylinders: [4, 2, 1, 3] }), [1, 3, 4, 2])).toEqual([[4, 2, 1, 3]]);
  });
});
