import { describe, expect, it } from 'vitest';
import { timeBudget } from '../../src/cli/time-budget.js';
import { routeHeader } from '../../src/pipeline.js';
import { starterPlan } from '../support/starter.js';

const plan = starterPlan('v-twin');

describe('a search for routes that is stopped before its work is done', () => {
  it('says so where it came to routes all the same, for another machine may come to others', () => {
    let asked = 0;
    const routing = routeHeader(plan, { goOn: () => asked++ < 150 });
    if (!routing.ok) throw new Error('no routes so soon: ask more often');
    expect(routing.header.cutShort).toBe(true);
    expect(routing.header.findings.find((f) => f.id === 'route.budget')).toMatchObject({ level: 'warn', unit: 's' });
    expect(routing.header.passed).toBe(true);
  });

  it('says nothing where its work was done', () => {
    const routing = routeHeader(plan, { goOn: () => true });
    if (!routing.ok) throw new Error('no routes');
    expect(routing.header.cutShort).toBe(false);
    expect(routing.header.findings.some((f) => f.id === 'route.budget')).toBe(false);
  });

  it('is stopped by its own work, not by the clock', async () => {
    const inTime = timeBudget(0.2);
    await new Promise((done) => setTimeout(done, 400));
    expect(inTime()).toBe(true);
    for (const begun = process.cpuUsage(); process.cpuUsage(begun).user < 250_000; );
    expect(inTime()).toBe(false);
    expect(inTime(100)).toBe(true);
  });
});
