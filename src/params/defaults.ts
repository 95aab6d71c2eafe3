/**
 * Every value a plan may leave out, as a plan would write it. Lengths carry their unit, so a plan in inches gets the same part.
 * All are common practice of the trade without a published source, except where a line says otherwise.
 */
export const DEFAULTS = {
  port: { direction: [0, 0, 1], rotation: 0, corner_radius: '0 mm' },
  heads: { clocking: 0 },
  /** `fit` is far below what a cutter keeps, and above the noise of a scan. */
  trace: { heal: '0.1 mm', fit: '0.02 mm', rotation: 0, mirror: false, bolt_max_diameter: '16 mm' },
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
    opening: { match: 'port' },
    /** Clearance per side of a tube in its socket. */
    socket_fit: '0.2 mm',
    style: { kind: 'one_piece' },
    neck: { width: '30 mm', length: '12 mm' },
    slot: { width: '3 mm', tie: '6 mm' },
    bridge: { width: '14 mm' },
    separate: { gap: '1 mm' },
    vee: { angle: 90, tip: '3 mm' },
    /** Degrees Celsius: EN 10088-1 and EN 1993-1-2 count from here. */
    growth: { cold: 20, fixed: 'middle', holes: 'slot' },
    torch_gap: '20 mm',
    /** Holes below this many thicknesses do not come out clean or round from a plasma cutter: a vendor's figure, quoted in design guides. */
    least_cut_hole: 1.5,
    /** ISO 9013: what plasma typically keeps. */
    cut_class: 2,
  },
  tube: {
    bend: { max_angle: 180 },
    /** Over the outside diameter: the tightest mandrel bend commonly sold. */
    least_clr: 1,
    step: { within: '15 mm' },
    /** One length shops sell; mills cut 6 m. */
    sticks: [{ length: '2000 mm' }],
    min_straight: '10 mm',
    min_straight_port: '15 mm',
    min_straight_inlet: '20 mm',
  },
  stock: { kerf: '2 mm', grip: '25 mm', least_offcut: '150 mm', minimise: 'pieces' },
  collector: {
    name: 'collector',
    clocking: 0,
    pattern: 'ring',
    gap: '4 mm',
    /** Degrees, for two inlets and more; a single inlet has 0. */
    merge_half_angle: 8,
    order: 'free',
    tail: '40 mm',
    outlet: { kind: 'cone' },
    centre: 'open',
    slip: { overlap: '40 mm', fit: '0.3 mm' },
    branch: { angle: 45, clocking: 0, on: 'tail' },
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
  /** To be measured on the part the plate is bolted to. Thickness, material and fit of bolts are the flange's. */
  plates: {
    count: 1,
    thread: 'M10',
    edge: '8 mm',
    throat_edge: '8 mm',
    corner_radius: '6 mm',
    web: '6 mm',
    clocking: 0,
    fit: '0.2 mm',
    gasket: true,
    vband: { land: '10 mm' },
    slip_joint: { overlap: '40 mm' },
  },
  gaskets: { flanges: true, plates: true, grow: '1 mm', thickness: '1.5 mm', material: 'graphite sheet' },
  drawing: {
    dxf_units: 'mm',
    dxf_version: 'r2007',
    curves: 'polylines',
    engrave: true,
    sheet: { gap: '8 mm', margin: '10 mm', count: 1 },
  },
  /** Shop values: measured on the shop's own welds. Nothing is added or taken until they are given. */
  weld: { gap: '0 mm', shrinkage: '0 mm' },
  jig: {
    bed: '210 mm',
    fit: '0.2 mm',
    plate: '5 mm',
    key_length: '10 mm',
    strut: 'auto',
    gap: '5 mm',
    chamfer: '0.4 mm',
    print: {
      walls: 3,
      line_width: '0.45 mm',
      /** Percent. */
      infill: 15,
      layer: '0.2 mm',
      /** kg/m3 of PLA, from memory. */
      density: 1240,
      solid_layers: 4,
      /** mm3/s on average, and s a layer: fitted to what a slicer says of such parts at the speeds it comes with. */
      flow: 2.3,
      infill_flow: 9,
      layer_time: 0.5,
      /** Degrees from upright, and mm2. */
      overhang: 50,
      most_overhang: 500,
      least_foot: 100,
    },
    joint: 'slide',
    press_fit: '0.1 mm',
    tube: 'solid',
    /** Six lines of a nozzle of 0.4 mm. */
    tube_wall: '2.4 mm',
    scale: true,
    marks: true,
    foot: false,
    comb: true,
    holder: { thread: 'M8' },
  },
  /** Wanted altogether by a plan that has the section. The hole: M5, ISO 273 fine. */
  bench: {
    saddles: true,
    sleeves: true,
    clocking_rings: true,
    base: { pitch: '25 mm', hole: '5.3 mm', thickness: '8 mm' },
    torch_room: '25 mm',
  },
  /** Degrees Celsius; Heywood, Internal Combustion Engine Fundamentals, has 400 to 600 as common (from memory). Roughness: commercial steel pipe, Crane TP-410. kPa. */
  tuning: { rule: 'duration', gas_temperature: 600, roughness: '0.046 mm', turbine: { back_pressure: 110 } },
  /** Roughness of cast iron, 0.26 mm in handbooks (from memory); the share of heat through a double wall: common practice, no source. */
  existing: {
    name: 'existing manifold',
    material: 'cast iron',
    wall: '5 mm',
    roughness: '0.26 mm',
    double_wall: false,
    heat_share: 0.4,
  },
  patterns: {
    wrap: 'outside',
    tab: '15 mm',
    paper: '0.1 mm',
    count: 1,
    measured: 'outside',
    offset: '0 mm',
    angle: 90,
  },
} as const;
