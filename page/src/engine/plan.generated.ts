// SPDX-License-Identifier: MIT
// Made from schema/plan.schema.json by scripts/types.mjs; do not edit.

/**
 * Millimetres.
 */
export type Length = number;
export type Money = string;

/**
 * What follows from a job. Lengths are millimetres, exact to the nanometre; money is a decimal string; findings carry no text: faces add it in the user's language.
 */
export interface PlanDocument {
  schema: 'railwright-plan';
  version: 1;
  job: string;
  invented: boolean;
  fingerprint: string;
  posts: {
    name: string;
    kind: 'end' | 'corner' | 'line' | 'tee' | 'cross' | 'gate' | 'brace' | 'fixed';
    leg?: string;
    station?: Length;
    on: {
      leg: string;
      station: Length;
    }[];
    east: Length;
    north: Length;
    ground: Length;
    pipe: string;
    diameter: Length;
    set: boolean;
    gate?: string;
    deflection_deg?: number;
    length?: Length;
    above_ground?: Length;
    embedment?: Length;
    hole_diameter?: Length;
    hole_depth?: Length;
    concrete_m3?: number;
  }[];
  /**
   * What the crew stakes by, leg by leg: level station, the tape's reading laid along the ground from the leg's first post, the string, coordinates; latitude and longitude where the job has a place on the earth.
   */
  stakes: {
    leg: string;
    string_side: 'left' | 'right';
    level: Length;
    tape: Length;
    posts: {
      post: string;
      station: Length;
      tape: Length;
      string_to_centre: Length;
      string_to_face: Length;
      east: Length;
      north: Length;
      ground: Length;
      latitude_deg?: number;
      longitude_deg?: number;
    }[];
  }[];
  bays: {
    name: string;
    kind: 'fence' | 'brace' | 'gate';
    leg: string;
    from: string;
    to: string;
    start: Length;
    end: Length;
    pitch: Length;
    gap: Length;
    gate?: string;
    /**
     * Centre height of each pipe rail above the datum at the two posts, top rail first.
     */
    heights: Length[][];
  }[];
  runs: {
    name: string;
    leg: string;
    bays: number;
    start: Length;
    end: Length;
  }[];
  /**
   * Curved legs by the terms of a simple curve: stations run along the arc, posts stand on it, rails are chords.
   */
  curves: {
    leg: string;
    circle: boolean;
    turns: 'left' | 'right';
    centre: Place;
    radius: Length;
    turn_deg: number;
    length: Length;
    chord: Length;
    middle_ordinate: Length;
  }[];
  /**
   * Gate leaves: where the hinge is, and the leaf's end closed and standing open at a right angle; it sweeps the quarter circle between.
   */
  leaves: {
    gate: string;
    bay: string;
    hinge: string;
    leaf: Length;
    at: Place;
    closed: Place;
    open: Place;
  }[];
  /**
   * How a tape proves a corner: mark both sides from the post's middle; the marks must lie `diagonal` apart. Square corners have 3-4-5 triangles in whole units.
   */
  corners: {
    post: string;
    square: boolean;
    /**
     * @minItems 2
     * @maxItems 2
     */
    sides: {
      leg: string;
      mark: Length;
    }[];
    diagonal: Length;
  }[];
  /**
   * Four posts joined by straight sides, in walking order, with the distances from the first to the third and from the second to the fourth.
   */
  quadrilaterals: {
    /**
     * @minItems 4
     * @maxItems 4
     */
    posts: string[];
    /**
     * @minItems 2
     * @maxItems 2
     */
    diagonals: Length[];
  }[];
  /**
   * number 0 is a brace rail; length is what is cut.
   */
  rails: {
    name: string;
    bay: string;
    number: number;
    pipe: string;
    gap: Length;
    rise: Length;
    take_off: Length;
    true_length: Length;
    length: Length;
    measured: boolean;
  }[];
  fittings: {
    post: string;
    fitting: string;
    rails: string[];
    height: Length;
    below_top: Length;
    bearing_deg: number;
    stack: number;
  }[];
  earthwork?: {
    bay: string;
    leg: string;
    way: 'cut' | 'fill';
    from: number;
    to: number;
    deepest: number;
    volume_m3: number;
  }[];
  clearances: {
    bay: string;
    below_rail: number;
    least: Length;
    largest: Length;
    at: Length;
    verdict: 'clear' | 'fails' | 'unknown';
  }[];
  cuts: {
    cost: Money;
    cost_before_drops: Money;
    bound: Money;
    proved: boolean;
    sticks_used: number;
    sticks: {
      name: string;
      pipe: string;
      count: number;
      length: Length;
      /**
       * Labels in cutting order: rails, posts, brace rails.
       */
      pieces: string[];
      /**
       * Running tape mark of each piece's far end, kerfs included.
       */
      marks: Length[];
      /**
       * How many pieces, from the first, may be cut now; the others wait for their gap to be measured.
       */
      ready: number;
      drop: Length;
      kept: boolean;
    }[];
    pipes: {
      pipe: string;
      cost: Money;
      bound: Money;
      proved: boolean;
      sticks_used: number;
      setups: number;
    }[];
  };
  quantities: {
    item: string;
    group: string;
    unit: string;
    needed: number;
    spare: number;
    order: number;
    pack: number;
    running_short: number;
    priced: boolean;
    price: Money;
    amount: Money;
    mass_kg: number;
    why: string;
  }[];
  /**
   * Advisory only: never an approval.
   */
  checks: {
    code: string;
    where: string;
    demand: number;
    capacity: number;
    ratio: number;
    unit: string;
    ok: boolean;
    formula: string;
    source: string;
    /**
     * Named figures; a face fills them into the sentence of the code.
     */
    inputs: {
      [k: string]:
        | string
        | number
        | {
            mm: number;
          }
        | {
            money: Money;
          }
        | {
            degrees: number;
          }
        | {
            slope: number;
          }
        | {
            newtons: number;
          }
        | {
            m3: number;
          };
    };
  }[];
  gaps: {
    bay: string;
    rail: number;
    planned: Length;
    measured: Length;
    residual: Length;
    doubtful: boolean;
  }[];
  findings: {
    code: string;
    severity: 'note' | 'warning' | 'stop';
    where: string;
    /**
     * Named figures; a face fills them into the sentence of the code.
     */
    values: {
      [k: string]:
        | string
        | number
        | {
            mm: number;
          }
        | {
            money: Money;
          }
        | {
            degrees: number;
          }
        | {
            slope: number;
          }
        | {
            newtons: number;
          }
        | {
            m3: number;
          };
    };
    text?: string;
  }[];
  price: {
    currency: string;
    materials: Money;
    labour: Money;
    overhead: Money;
    profit: Money;
    tax: Money;
    total: Money;
    per_foot: Money;
  };
  /**
   * Only where points are not taped: in 19 of 20 such fences the true figure lies within the planned one plus or minus these.
   */
  position_range?: {
    accuracy: Length;
    fence: Length;
    pipe: Length;
    bays: number;
    posts: number;
    rails: number;
    price: Money;
  };
  hours: {
    operations: {
      operation: string;
      count: number;
      minutes_each: number;
      hours: number;
    }[];
    person_hours: number;
    days: number;
  };
  loads: {
    trips: number;
    mass_kg: number;
    longest: Length;
    tie_downs: number;
    overhang: boolean;
  };
  /**
   * Only where a fence asks for the best spacing: what the bays chosen cost, what the plain rule costs, and what no choice can cost less than.
   */
  spacing?: {
    cost: Money;
    plain: Money;
    bound: Money;
    eight_foot: Money;
    saved: Money;
    /**
     * The chosen bays with no setting scatter, squaring or stick tolerance; null: a piece fits no stick then.
     */
    at_zero_allowance: Money | null;
    /**
     * The chosen bays with each allowance twice its size.
     */
    at_double_allowance: Money | null;
    /**
     * Fences with a limit on how many different pitches they show.
     */
    looks: {
      fence: string;
      limit: number;
      shown: number;
    }[];
    /**
     * The best that was found without the limit on looks; null: the limit costs nothing.
     */
    without_limit: Money | null;
    /**
     * No choice is cheaper: bound = cost.
     */
    proved: boolean;
    /**
     * The search had come to its end.
     */
    finished: boolean;
  };
  /**
   * Names this plan gives for the first time; a face adds them to the job's `issued` once something was printed, bought or set.
   */
  new_names: {
    posts: {
      name: string;
      leg: string;
      station: Length;
    }[];
    bays: {
      name: string;
      from: string;
      to: string;
    }[];
  };
}
export interface Place {
  east: Length;
  north: Length;
}
