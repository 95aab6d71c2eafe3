/** Random choices that are the same for the same seed (Park and Miller's generator). */
export interface Random {
  /** 0 to 1. */
  readonly part: () => number;
  /** 0 to n - 1. */
  readonly below: (n: number) => number;
  readonly of: <T>(list: readonly T[]) => T;
  readonly chance: (p: number) => boolean;
}

export function randomFrom(seed: number): Random {
  let state = (seed % 2_147_483_646) + 1;
  const part = (): number => {
    state = (state * 48_271) % 2_147_483_647;
    return (state - 1) / 2_147_483_646;
  };
  for (let i = 0; i < 10; i++) part();
  const below = (n: number): number => Math.floor(part() * n);
  return { part, below, of: (list) => list[below(list.length)]!, chance: (p) => part() < p };
}
