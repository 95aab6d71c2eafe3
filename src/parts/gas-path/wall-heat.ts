/**
 * What a hot pipe is taken for: its skin and the air round it, K; emissivity of oxidised steel or iron and the film of air in an engine
 * bay, W/(m2 K): common practice, no source. The same for every exhaust, so that only surfaces and double walls are compared.
 */
export const HOT_PIPE = { skin: 723.15, air: 313.15, emissivity: 0.8, film: 15 } as const;

/** W/(m2 K4), CODATA. */
const STEFAN_BOLTZMANN = 5.670374e-8;

/** Heat, W, that a bare skin of mm2 gives off by film and radiation; `share` of it through a double wall. */
export function heatLoss(surface: number, share: number): number {
  const { skin, air, emissivity, film } = HOT_PIPE;
  const flux = film * (skin - air) + emissivity * STEFAN_BOLTZMANN * ((skin ** 2) ** 2 - (air ** 2) ** 2);
  return share * surface * 1e-6 * flux;
}
