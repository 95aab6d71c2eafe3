import flatten from '@flatten-js/core';
import { beforeEach, expect, test, vi } from 'vitest';
import { circleOutline } from '../../../src/geometry/outline/make.js';
import { signedArea } from '../../../src/geometry/outline/measure.js';
import { unionOf } from '../../../src/geometry/outline/union.js';

vi.mock('@flatten-js/core', async (importActual) => {
  const { default: actual } = await importActual<{ readonly default: typeof flatten }>();
  const unify = vi.fn(actual.BooleanOperations.unify);
  return {
    default: Object.assign(Object.create(actual), { BooleanOperations: { ...actual.BooleanOperations, unify } }),
  };
});

const unify = vi.mocked(flatten.BooleanOperations.unify);
const pair = [circleOutline([0, 0], 20), circleOutline([10, 0], 20)];
const lens = 2 * 100 * Math.acos(0.5) - 5 * Math.sqrt(300);

beforeEach(() => void unify.mockClear());

test('a wrong area and a throw of the kernel are caught and another try is made', () => {
  unify.mockImplementationOnce((a) => a);
  unify.mockImplementationOnce(() => {
    throw new Error('near tangent');
  });
  const joined = unionOf(pair);
  expect(unify).toHaveBeenCalledTimes(3);
  expect(signedArea(joined[0]!)).toBeCloseTo(200 * Math.PI - lens, 3);
});

test('wrong every time is said loudly', () => {
  unify.mockImplementation((a) => a);
  expect(() => unionOf(pair)).toThrow(/no union of 2 outlines/);
});
