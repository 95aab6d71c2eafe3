/**
 * Every value a plan may leave out, as a plan would write it. Lengths carry their unit, so a plan in inches gets the same part.
 * All are common practice of the trade without a published source, except where a line says otherwise.
 */
export const DEFAULTS = {
  port: { direction: [0, 0, 1], rotation: 0, corner_radius: '0 mm' },
  heads: { clocking: 0 },
  /** Room for a plug socket and its boot. */
  plug: { diameter: '26 mm', length: '110 mm' },
  access: { bolts: true, bolt_depth: '70 mm', plugs: true },
  flange: {
    edge_width: '8 mm',
    web: '5 mm',
    fillet: '6 mm',
    enlarge: '0 mm',
    /** ISO 273, series medium; ASME B18.2.8 normal for inch threads. */
    bolt_fit: 'medium',
    kerf: { width: '0 mm', compensate: false },
  },
  tube: {
    bend: { max_angle: 180, leg: '0 mm' },
    /** Over the outside diameter: the tightest mandrel bend commonly sold. */
    least_clr: 1,
    step: { within: '15 mm' },
    min_straight: '10 mm',
    min_straight_port: '15 mm',
    min_straight_inlet: '20 mm',
  },
  collector: {
    name: 'collector',
    clocking: 0,
    pattern: 'ring',
    gap: '4 mm',
    /** Degrees, for two inlets and more; a single inlet has 0. */
    merge_half_angle: 8,
    order: 'free',
    tail: '40 mm',
    freedom: { offset: '0 mm', tilt: 0, turns: false },
  },
  runners: {
    spread: '1 mm',
    clearance: '6 mm',
    /** From what must stay cool, with a shield. */
    heat_distance: '25 mm',
    route: 'auto',
    seed: 1,
    weights: { bend: 20, turning: 12, tightness: 8, closeness: 30, scrap: 5 },
    /** s. */
    budget: 20,
  },
  keep_out: { heat: false, mesh: { at: '0 mm', turn: 0 } },
  jig: { bed: '210 mm', fit: '0.2 mm', plate: '5 mm', key_length: '10 mm', strut: '16 mm' },
} as const;
