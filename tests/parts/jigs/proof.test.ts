import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { jigsGoTogether } from '../../../src/checks/assembly.js';
import type { CheckContext } from '../../../src/checks/context.js';
import { pointFrom, pointInto } from '../../../src/geometry/frame.js';
import { pointOf } from '../../../src/geometry/mesh/measure.js';
import { add, rotateAbout, scale, unit, type Vec3 } from '../../../src/geometry/vec3.js';
import { flangesOf } from '../../../src/parts/flange/flange.js';
import { mockUpOf } from '../../../src/parts/jigs/jigs.js';
import { assemblyProof, PROOF_LIMITS } from '../../../src/parts/jigs/proof.js';
import { circleThrough } from '../../../src/parts/jigs/proof-circle.js';
import type { SolidPart } from '../../../src/parts/part.js';
import { steppedPair } from '../../support/stepped-pair.js';
import { twin } from '../../support/twin.js';

type Header = ReturnType<typeof steppedPair>;
const prepared = (header: Header) => {
  const { plan, primaries, secondaries } = header;
  const { parts } = mockUpOf({ ...header, flanges: flangesOf(plan) });
  const prove = (of: readonly SolidPart[]) => {
    const proof = assemblyProof(plan, [...primaries, ...secondaries], of);
    // the rule reads plan and proof alone
    const findings = jigsGoTogether({ plan, proof } as CheckContext);
    return { proof, findings, bad: findings.filter((f) => f.level !== 'ok').map((f) => f.id) };
  };
  return { parts, prove };
};

const pair = prepared(steppedPair());
const header = steppedPair();
const scaled = prepared({ ...header, plan: { ...header.plan, jig: { ...header.plan.jig, scale: 'mm' } } });
const unmarked = prepared({ ...header, plan: { ...header.plan, jig: { ...header.plan.jig, marks: false } } });
const RADIUS = header.primaries[0]!.sections[0]!.od / 2;
const two = prepared({ ...twin(), secondaries: [] });

/** The parts with one of them moved. */
const moved = (parts: readonly SolidPart[], name: string, by: Vec3): SolidPart[] =>
  parts.map((p) => (p.name === name ? { ...p, pose: { ...p.pose, origin: add(p.pose.origin, by) } } : p));

describe.each([
  ['a twin', two],
  ['a twin whose primaries grow and whose merge feeds another', pair],
])('assembly proof of %s', (_, { parts, prove }) => {
  const { proof, findings, bad } = prove(parts);

  it('holds in everything', () => {
    expect(bad).toEqual([]);
    expect(new Set(findings.map((f) => f.id))).toEqual(
      new Set(['jig.overlap', 'jig.mate', 'jig.place', 'jig.centreline', 'jig.mark']),
    );
  });

  it('looks at many pairs, every joint, every inlet and sections all along every tube', () => {
    expect(proof.pairs).toBeGreaterThan(10);
    expect(proof.loose).toEqual([]);
    const tubes = parts.filter((p) => p.kind === 'dummy-tube');
    for (const t of tubes) expect(proof.mates.filter((m) => m.before === t.name || m.after === t.name)).toHaveLength(2);
    for (const pose of proof.poses) expect(pose.place).toBeLessThan(PROOF_LIMITS.pose);
    for (const c of proof.centrelines) {
      expect(c.sections).toBeGreaterThan(0.8 * c.wanted);
      expect(c.error).toBeLessThan(PROOF_LIMITS.centreline);
    }
  });

  it('has no opinion on jigs for the bench, which have no place in the mock-up', () => {
    const stray: SolidPart = { ...parts[0]!, name: 'stray', kind: 'bench-saddle' };
    expect(prove([...parts, stray]).proof).toEqual(proof);
  });
});

describe('assembly proof of parts that are out of place', () => {
  const { parts, prove } = pair;

  it('finds a dummy tube pushed aside: its centreline, its joints and what it runs into', () => {
    const { bad, findings } = prove(moved(parts, 'tube-1b', [0.9, 0.4, 0.3]));
    expect(bad).toContain('jig.centreline');
    expect(bad).toContain('jig.overlap');
    expect(bad).toContain('jig.mate');
    const centre = findings.find((f) => f.id === 'jig.centreline' && f.level === 'fail')!;
    expect(centre.place).toBe('cylinder 1');
    expect(centre.value).toBeGreaterThan(0.3);
    expect(centre.value).toBeLessThan(Math.hypot(0.9, 0.4, 0.3) + 0.05);
  });

  it('finds a holder 0.02 mm off, and says by how much', () => {
    const off: Vec3 = [0.012, 0.012, -0.012];
    const { findings } = prove(moved(parts, 'holder-y-merge', off));
    const poses = findings.filter((f) => f.id === 'jig.place' && f.level === 'fail');
    expect(poses).toHaveLength(2);
    for (const p of poses) expect(p.value).toBeCloseTo(Math.hypot(...off), 3);
  });

  it('finds a holder far away', () => {
    const { findings } = prove(moved(parts, 'holder-y-merge', [0, 0, 40]));
    expect(findings.some((f) => f.id === 'jig.place' && f.level === 'fail')).toBe(true);
  });

  it('measures how high the scale stands, and finds one that is 0.15 mm too low', () => {
    const { parts, prove } = scaled;
    const { findings } = prove(parts);
    const whole = findings.filter((f) => f.id === 'jig.mark');
    expect(whole.length).toBeGreaterThan(0);
    expect(whole.every((f) => f.level === 'ok' && f.value < 0.01)).toBe(true);
    const sunk = parts.map((p): SolidPart => {
      if (p.name !== 'tube-1a') return p;
      const positions = p.mesh.positions.slice();
      // tube 1A is straight along z of the world: its radius and the ticks' 0.4 mm are told by the distance from there
      const away = (i: number): number => Math.hypot(...pointFrom(p.pose, pointOf(p.mesh, i)).slice(0, 2));
      const every = Array.from({ length: positions.length / 3 }, (_, i) => away(i));
      const ticks = every.filter((r) => Math.abs(r - RADIUS - 0.4) < 0.005);
      expect(ticks.length).toBeGreaterThan(8);
      every.forEach((r, i) => {
        if (Math.abs(r - RADIUS - 0.4) >= 0.005) return;
        const [x, y, z] = pointFrom(p.pose, pointOf(p.mesh, i));
        positions.set(pointInto(p.pose, [(x * (r - 0.15)) / r, (y * (r - 0.15)) / r, z]), 3 * i);
      });
      return { ...p, mesh: { ...p.mesh, positions } };
    });
    const found = prove(sunk).findings.find((f) => f.id === 'jig.mark' && f.level === 'warn')!;
    expect(found.place).toBe('cylinder 1');
    expect(found.value).toBeCloseTo(0.15, 2);
  });

  it('measures clocking lines and names', () => {
    const { marks } = pair.prove(pair.parts).proof;
    for (const { lines, names } of marks) {
      // a name may take the room on a short piece
      expect(lines.found).toBeGreaterThan(0.8 * lines.wanted);
      expect(names.found).toBeGreaterThan(0);
      expect(lines.error).toBeLessThan(0.01);
      expect(names.error).toBeLessThan(0.01);
    }
  });

  it('finds clocking lines that were left out, and names that stand 0.15 mm too low', () => {
    const without = pair.prove(unmarked.parts);
    expect(without.proof.marks.every((m) => m.lines.wanted > 0 && m.lines.found === 0)).toBe(true);
    expect(without.bad).toContain('jig.mark');
    // names on straights along z of the world: their flat faces are the only thing 0.6 mm and more over the skin
    const lowered = parts.map((p): SolidPart => {
      if (p.name !== 'tube-1a') return p;
      const positions = p.mesh.positions.slice();
      for (let i = 0; i < positions.length / 3; i++) {
        const [x, y, z] = pointFrom(p.pose, pointOf(p.mesh, i));
        const r = Math.hypot(x, y);
        if (r < RADIUS + 0.59) continue;
        positions.set(pointInto(p.pose, [(x * (r - 0.15)) / r, (y * (r - 0.15)) / r, z]), 3 * i);
      }
      return { ...p, mesh: { ...p.mesh, positions } };
    });
    const found = prove(lowered).findings.find((f) => f.id === 'jig.mark' && f.level === 'warn')!;
    expect(found.place).toBe('cylinder 1');
    expect(found.value).toBeCloseTo(0.15, 2);
  });

  it('finds a tube turned in its joint by the key it then runs into', () => {
    const turned = parts.map((p): SolidPart => {
      if (p.name !== 'tube-1a') return p;
      // tube 1A is straight along z of the world, out of a port at the origin
      const about = (v: Vec3): Vec3 => rotateAbout(v, [0, 0, 1], 0.2);
      const { origin, x, y, z } = p.pose;
      return { ...p, pose: { origin: about(origin), x: about(x), y: about(y), z: about(z) } };
    });
    expect(prove(turned).bad).toContain('jig.overlap');
  });

  it('finds a part that hangs in the air', () => {
    const { proof, bad } = prove(moved(parts, 'plug-2', [0, 0, -0.5]));
    expect(proof.loose.length + proof.overlaps.filter((o) => o.volume > PROOF_LIMITS.overlap).length).toBeGreaterThan(
      0,
    );
    expect(bad.length).toBeGreaterThan(0);
  });

  it('finds any tube moved any way by 0.1 mm and more', () => {
    const tubes = two.parts.filter((p) => p.kind === 'dummy-tube').map((p) => p.name);
    fc.assert(
      fc.property(
        fc.constantFrom(...tubes),
        fc.tuple(
          fc.double({ min: -1, max: 1, noNaN: true }),
          fc.double({ min: -1, max: 1, noNaN: true }),
          fc.constantFrom(-1, 1),
        ),
        fc.double({ min: 0.1, max: 3, noNaN: true }),
        (name, way, by) => {
          expect(two.prove(moved(two.parts, name, scale(unit(way), by))).bad.length, name).toBeGreaterThan(0);
        },
      ),
      { numRuns: 6 },
    );
  });
});

describe('circle through points with strays', () => {
  it('is the circle of the others', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 5, max: 80, noNaN: true }),
        fc.tuple(fc.double({ min: -2, max: 2, noNaN: true }), fc.double({ min: -2, max: 2, noNaN: true })),
        fc.array(fc.double({ min: 0.15, max: 3, noNaN: true }), { maxLength: 5 }),
        (radius, [x, y], strays) => {
          const at = (k: number, r: number) => [x + r * Math.cos(k), y + r * Math.sin(k)] as const;
          const ring = Array.from({ length: 40 }, (_, k) => at((2 * Math.PI * k) / 40, radius));
          const circle = circleThrough([...ring, ...strays.map((s, k) => at(0.3 + k, radius - s))])!;
          // a stray nearer than 0.1 mm once the others are fitted is kept and pulls by a fortieth of it a point
          expect(Math.hypot(circle.centre[0] - x, circle.centre[1] - y)).toBeLessThan(0.03);
          expect(Math.abs(circle.radius - radius)).toBeLessThan(0.03);
        },
      ),
      { numRuns: 200 },
    );
  });

  it('is none for points on a line or too few', () => {
    expect(circleThrough(Array.from({ length: 20 }, (_, i) => [i, 2 * i]))).toBeNull();
    expect(
      circleThrough([
        [0, 0],
        [1, 0],
        [0, 1],
      ]),
    ).toBeNull();
  });
});
