import type { PlanFault, PlanPath } from '../faults/plan-problem.js';
import type { Draft } from '../resolve/draft.js';

/** The cheapest stock needs the price of every piece of it. */
export function stockRules({ sections: { stock, tube, secondaries } }: Draft): PlanFault[] {
  if (stock?.minimise !== 'price') return [];
  const sizes: { readonly path: PlanPath; readonly size: Offers | undefined }[] = [
    { path: ['tube'], size: tube },
    ...(tube?.steps ?? []).map((size, i) => ({ path: ['tube', 'steps', i], size })),
    { path: ['secondaries'], size: secondaries },
  ];
  return sizes.flatMap(({ path, size }) =>
    (['bends', 'sticks'] as const).flatMap((list) =>
      (size?.[list] ?? []).flatMap(({ price }, i): PlanFault[] => {
        if (price !== undefined) return [];
        const message = 'missing; stock.minimise price needs the price of every piece of stock';
        return [{ path: [...path, list, i, 'price'], message }];
      }),
    ),
  );
}

interface Offers {
  readonly bends: readonly { readonly price?: number | undefined }[];
  readonly sticks: readonly { readonly price?: number | undefined }[];
}
