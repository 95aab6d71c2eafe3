import { describe, expect, it } from 'vitest';
import { jigsGoTogether } from '../../../src/checks/assembly.js';
import type { CheckContext } from '../../../src/checks/context.js';
import { mockUpOf } from '../../../src/parts/jigs/jigs.js';
import { assemblyProof, PROOF_LIMITS } from '../../../src/parts/jigs/proof.js';
import { routedStarter } from '../../support/starter.js';

describe.each(['inline-four', 'inline-four-421', 'inline-four-stepped', 'v-twin', 'v6-twin'])(
  'mock-up of starter %s',
  (name) => {
    it('goes together: nothing overlaps, every joint closes, collectors and centrelines are where the design has them', () => {
      const header = routedStarter(name);
      const { plan, primaries, secondaries } = header;
      const proof = assemblyProof(plan, [...primaries, ...secondaries], mockUpOf(header).parts);
      expect(proof.overlaps.filter((o) => o.volume > PROOF_LIMITS.overlap)).toEqual([]);
      expect(proof.loose).toEqual([]);
      for (const { place } of proof.poses) expect(place).toBeLessThan(0.01);
      expect(proof.poses.length).toBeGreaterThan(0);
      const findings = jigsGoTogether({ plan, proof } as CheckContext);
      expect(findings.filter((f) => f.level !== 'ok')).toEqual([]);
    });
  },
);
