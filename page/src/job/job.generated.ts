// SPDX-License-Identifier: MIT
// Made from schema/job.schema.json by scripts/types.mjs; do not edit.

/**
 * Such as 7 ft 5 1/4 in, 89.25 in, 2270 mm, 2.27 m.
 */
export type Length = string;

/**
 * What the user knows and decides about a fence. A length is a text with its unit; x-range-nm gives its least and largest value in nanometres.
 */
export interface JobDocument {
  /**
   * Version of this document; 1.
   */
  version?: number;
  /**
   * Name of the job, printed on every sheet.
   */
  name?: string;
  /**
   * Date as the user gives it; the engine has no clock.
   */
  date?: string;
  /**
   * Free note.
   */
  note?: string;
  /**
   * True for demonstration data: every sheet then says so.
   */
  invented?: boolean;
  /**
   * Units in which faces show lengths; the document itself may use any.
   */
  units?: 'feet_inches' | 'metric';
  /**
   * Language of the sheets: a words catalogue, en or es.
   */
  language?: string;
  /**
   * Where the fence stands.
   */
  site?: {
    /**
     * Geodetic place of east = north = 0 (WGS 84).
     */
    origin?: {
      /**
       * Degrees north.
       */
      latitude_deg: number;
      /**
       * Degrees east.
       */
      longitude_deg: number;
      /**
       * Metres above the ellipsoid.
       */
      height_m?: number;
    } | null;
    /**
     * Corners, ends, tees and gate marks of the walk.
     */
    points?: {
      /**
       * Name of the point and of the post that stands there.
       */
      id: string;
      /**
       * East of the origin.
       */
      east: string;
      /**
       * North of the origin.
       */
      north: string;
      /**
       * Ground above the datum, where known.
       */
      height?: Length | null;
      /**
       * Free note.
       */
      note?: string;
      /**
       * Accuracy of its place, one sigma in each direction; none: position_accuracy of the site, 0: taped.
       */
      accuracy?: Length | null;
    }[];
    /**
     * Lines walked from one point to another, straight unless `arc` says how they curve.
     */
    legs?: {
      /**
       * Name of the leg; prefix of the names of its line posts and bays.
       */
      id: string;
      /**
       * Point where it begins.
       */
      from: string;
      /**
       * Point where it ends.
       */
      to: string;
      /**
       * The fence that stands on it.
       */
      fence: string;
      /**
       * Side of the animals, walking from its first point to its second.
       */
      animal_side?: 'left' | 'right';
      /**
       * Stations of further fixed posts, level from the first point.
       */
      fixed?: string[];
      /**
       * How the leg curves: a bend between its points (one of radius or diameter, middle_ordinate, turn_deg), or a full circle where both are one point (one of centre, radius or diameter).
       */
      arc?: {
        /**
         * The way it bends, seen walking.
         */
        turns?: 'left' | 'right';
        /**
         * Such as 7 ft 5 1/4 in, 89.25 in, 2270 mm, 2.27 m.
         */
        radius?: string;
        /**
         * Such as 7 ft 5 1/4 in, 89.25 in, 2270 mm, 2.27 m.
         */
        diameter?: string;
        /**
         * Such as 7 ft 5 1/4 in, 89.25 in, 2270 mm, 2.27 m.
         */
        middle_ordinate?: string;
        /**
         * Bends: change of direction from end to end, the central angle; 0: from the rest.
         */
        turn_deg?: number;
        /**
         * Circles: where the middle is; the leg's point lies on the circle.
         */
        centre?: {
          /**
           * Such as 7 ft 5 1/4 in, 89.25 in, 2270 mm, 2.27 m.
           */
          east: string;
          /**
           * Such as 7 ft 5 1/4 in, 89.25 in, 2270 mm, 2.27 m.
           */
          north: string;
        } | null;
        /**
         * Circles without a centre: direction from the leg's point to the middle, clockwise from north.
         */
        bearing_deg?: number;
        /**
         * Equal sides of the whole curve where nothing else is fixed on it; 0: by the pitch.
         */
        sides?: number;
      } | null;
    }[];
    /**
     * Gates and where they stand.
     */
    gates?: {
      /**
       * Name of the gate.
       */
      id: string;
      /**
       * Leg in which it stands.
       */
      leg: string;
      /**
       * Such as 7 ft 5 1/4 in, 89.25 in, 2270 mm, 2.27 m.
       */
      station: string;
      /**
       * Such as 7 ft 5 1/4 in, 89.25 in, 2270 mm, 2.27 m.
       */
      leaf: string;
      /**
       * End of the opening where the hinges are; both: two leaves.
       */
      hinge?: 'from' | 'to' | 'both';
      /**
       * Side to which it opens, walking the leg.
       */
      swing?: 'left' | 'right';
      /**
       * Such as 7 ft 5 1/4 in, 89.25 in, 2270 mm, 2.27 m.
       */
      hinge_clearance?: string;
      /**
       * Such as 7 ft 5 1/4 in, 89.25 in, 2270 mm, 2.27 m.
       */
      latch_clearance?: string;
      /**
       * Mass of one leaf; 0: from its supply row.
       */
      leaf_mass_kg?: number;
      /**
       * Supply row of the leaf; empty: by width.
       */
      supply?: string;
      /**
       * Such as 7 ft 5 1/4 in, 89.25 in, 2270 mm, 2.27 m.
       */
      ground_clearance?: string;
    }[];
    /**
     * Places where no hole is dug.
     */
    zones?: {
      /**
       * Name of the zone.
       */
      id: string;
      /**
       * What lies there.
       */
      kind?:
        'power' | 'gas' | 'communication' | 'water' | 'sewer' | 'irrigation' | 'survey' | 'rock' | 'roots' | 'culvert' | 'wet' | 'other';
      /**
       * A point, a line, or the corners of an area.
       */
      shape?: {
        /**
         * Such as 7 ft 5 1/4 in, 89.25 in, 2270 mm, 2.27 m.
         */
        east: string;
        /**
         * Such as 7 ft 5 1/4 in, 89.25 in, 2270 mm, 2.27 m.
         */
        north: string;
      }[];
      /**
       * True: the shape is a closed area.
       */
      area?: boolean;
      /**
       * Instead of a shape: the leg of which a stretch is kept free.
       */
      leg?: string;
      /**
       * Such as 7 ft 5 1/4 in, 89.25 in, 2270 mm, 2.27 m.
       */
      from?: string;
      /**
       * Such as 7 ft 5 1/4 in, 89.25 in, 2270 mm, 2.27 m.
       */
      to?: string;
      /**
       * Such as 7 ft 5 1/4 in, 89.25 in, 2270 mm, 2.27 m.
       */
      tolerance?: string;
      /**
       * Free note.
       */
      note?: string;
    }[];
    /**
     * Heights of the ground.
     */
    ground?: {
      /**
       * Heights levelled along legs: the best there are.
       */
      profile?: {
        /**
         * Leg.
         */
        leg: string;
        /**
         * Such as 7 ft 5 1/4 in, 89.25 in, 2270 mm, 2.27 m.
         */
        station: string;
        /**
         * Such as 7 ft 5 1/4 in, 89.25 in, 2270 mm, 2.27 m.
         */
        height: string;
      }[];
      /**
       * Heights at places.
       */
      spots?: {
        /**
         * Such as 7 ft 5 1/4 in, 89.25 in, 2270 mm, 2.27 m.
         */
        east: string;
        /**
         * Such as 7 ft 5 1/4 in, 89.25 in, 2270 mm, 2.27 m.
         */
        north: string;
        /**
         * Such as 7 ft 5 1/4 in, 89.25 in, 2270 mm, 2.27 m.
         */
        height: string;
      }[];
      /**
       * Heights on a square grid.
       */
      grid?: {
        /**
         * Cells from west to east.
         */
        columns: number;
        /**
         * Cells from south to north.
         */
        rows: number;
        /**
         * Such as 7 ft 5 1/4 in, 89.25 in, 2270 mm, 2.27 m.
         */
        west: string;
        /**
         * Such as 7 ft 5 1/4 in, 89.25 in, 2270 mm, 2.27 m.
         */
        south: string;
        /**
         * Such as 7 ft 5 1/4 in, 89.25 in, 2270 mm, 2.27 m.
         */
        cell: string;
        /**
         * Heights in metres at cell centres, west to east, the southernmost row first; null where unknown.
         */
        heights_m: (number | null)[];
      } | null;
      /**
       * Such as 7 ft 5 1/4 in, 89.25 in, 2270 mm, 2.27 m.
       */
      accuracy?: string;
    };
    /**
     * Such as 7 ft 5 1/4 in, 89.25 in, 2270 mm, 2.27 m.
     */
    snap?: string;
    /**
     * Such as 7 ft 5 1/4 in, 89.25 in, 2270 mm, 2.27 m.
     */
    position_accuracy?: string;
  };
  /**
   * What fence, and how the work is done.
   */
  choices?: {
    /**
     * The fences of the job.
     */
    fences?: {
      /**
       * Name of the fence.
       */
      id: string;
      /**
       * rails: pipe rails alone; mesh, panels, strained: with mesh, panels or wires below; wire: wires alone.
       */
      kind?: 'rails' | 'mesh' | 'panels' | 'strained' | 'wire';
      /**
       * Animal row; empty: no checks by animal.
       */
      animal?: string;
      /**
       * Such as 7 ft 5 1/4 in, 89.25 in, 2270 mm, 2.27 m.
       */
      height: string;
      /**
       * Pipe rails; 0 for a wire fence.
       */
      rails?: number;
      /**
       * Heights of the rails' centre lines, top first; empty: equal spacing.
       */
      rail_centres?: string[];
      /**
       * How the rails run over the ground.
       */
      line?: 'follow' | 'level' | 'smooth';
      /**
       * Such as 7 ft 5 1/4 in, 89.25 in, 2270 mm, 2.27 m.
       */
      line_tolerance?: string;
      /**
       * How the bays are chosen.
       */
      spacing?: {
        /**
         * equal: fewest equal bays under the cap; at_pitch: equal bays nearest to the pitch; module: bays of the pitch and a make-up bay; list: the pitches given; best: chosen together with the cutting.
         */
        mode?: 'equal' | 'at_pitch' | 'module' | 'list' | 'best';
        /**
         * Such as 7 ft 5 1/4 in, 89.25 in, 2270 mm, 2.27 m.
         */
        cap?: string;
        /**
         * Such as 7 ft 5 1/4 in, 89.25 in, 2270 mm, 2.27 m.
         */
        pitch?: string;
        /**
         * Pitches in order, the last repeated.
         */
        list?: string[];
        /**
         * Such as 7 ft 5 1/4 in, 89.25 in, 2270 mm, 2.27 m.
         */
        panel?: string;
        /**
         * With best: at most so many different pitches; 0: no limit.
         */
        looks?: number;
        /**
         * Such as 7 ft 5 1/4 in, 89.25 in, 2270 mm, 2.27 m.
         */
        alike?: string;
      };
      /**
       * Pipe of the rails.
       */
      rail_pipe?: string;
      /**
       * Pipe of line posts; empty: as strong_pipe.
       */
      line_pipe?: string;
      /**
       * Pipe of end, corner, tee and brace posts; empty: as line_pipe.
       */
      strong_pipe?: string;
      /**
       * Pipe of gate posts; empty: as strong_pipe.
       */
      gate_pipe?: string;
      /**
       * How posts are set.
       */
      setting?: 'concrete' | 'driven';
      /**
       * Soil row; empty: embedment is not checked.
       */
      soil?: string;
      /**
       * Such as 7 ft 5 1/4 in, 89.25 in, 2270 mm, 2.27 m.
       */
      embedment?: string;
      /**
       * Such as 7 ft 5 1/4 in, 89.25 in, 2270 mm, 2.27 m.
       */
      strong_embedment?: string;
      /**
       * Such as 7 ft 5 1/4 in, 89.25 in, 2270 mm, 2.27 m.
       */
      gate_embedment?: string;
      /**
       * Such as 7 ft 5 1/4 in, 89.25 in, 2270 mm, 2.27 m.
       */
      hole?: string;
      /**
       * Such as 7 ft 5 1/4 in, 89.25 in, 2270 mm, 2.27 m.
       */
      frost_depth?: string;
      /**
       * What is below or between the rails.
       */
      infill?: {
        /**
         * Supply row of the mesh, panel or wire.
         */
        supply?: string;
        /**
         * Such as 7 ft 5 1/4 in, 89.25 in, 2270 mm, 2.27 m.
         */
        height?: string;
        /**
         * Such as 7 ft 5 1/4 in, 89.25 in, 2270 mm, 2.27 m.
         */
        ground_gap?: string;
        /**
         * Number of wires.
         */
        wires?: number;
        /**
         * Heights above ground, top first; empty: equal spacing.
         */
        wire_heights?: string[];
        /**
         * Of each wire as strained, in newtons.
         */
        tension_n?: number;
      };
      /**
       * Where brace assemblies stand.
       */
      braces?: {
        /**
         * At ends.
         */
        ends?: boolean;
        /**
         * At corners.
         */
        corners?: boolean;
        /**
         * At gates.
         */
        gates?: boolean;
        /**
         * Deflection from which a corner is braced.
         */
        corner_from_deg?: number;
        /**
         * Such as 7 ft 5 1/4 in, 89.25 in, 2270 mm, 2.27 m.
         */
        bay?: string;
        /**
         * Such as 7 ft 5 1/4 in, 89.25 in, 2270 mm, 2.27 m.
         */
        every?: string;
        /**
         * Such as 7 ft 5 1/4 in, 89.25 in, 2270 mm, 2.27 m.
         */
        rail_height?: string;
      };
      /**
       * Posts get caps.
       */
      capped?: boolean;
    }[];
    /**
     * Saw and sticks.
     */
    cutting?: {
      /**
       * Such as 7 ft 5 1/4 in, 89.25 in, 2270 mm, 2.27 m.
       */
      kerf?: string;
      /**
       * Such as 7 ft 5 1/4 in, 89.25 in, 2270 mm, 2.27 m.
       */
      crop?: string;
      /**
       * Such as 7 ft 5 1/4 in, 89.25 in, 2270 mm, 2.27 m.
       */
      saw_step?: string;
      /**
       * Such as 7 ft 5 1/4 in, 89.25 in, 2270 mm, 2.27 m.
       */
      keep_from?: string;
      /**
       * Worth of a kept drop as a share of its price by length.
       */
      drop_value?: number;
      /**
       * Search steps; 0: the engine's own limit.
       */
      work_limit?: number;
      /**
       * Search steps for the best spacing; 0: the engine's own limit.
       */
      spacing_work_limit?: number;
      /**
       * Posts first and every gap measured, or rails first and posts set against them.
       */
      order?: 'posts_first' | 'rails_first';
    };
    /**
     * Sticks that can be bought.
     */
    offers?: {
      /**
       * Name of the offer.
       */
      name: string;
      /**
       * Pipe row.
       */
      pipe: string;
      /**
       * Such as 7 ft 5 1/4 in, 89.25 in, 2270 mm, 2.27 m.
       */
      length: string;
      /**
       * Of one stick.
       */
      price?: string | number;
      /**
       * How many there are; left out: as many as wanted.
       */
      count?: number | null;
      /**
       * Who offers it.
       */
      source?: string;
    }[];
    /**
     * What the work is expected to stray.
     */
    allowances?: {
      /**
       * Such as 7 ft 5 1/4 in, 89.25 in, 2270 mm, 2.27 m.
       */
      scatter?: string;
      /**
       * Such as 7 ft 5 1/4 in, 89.25 in, 2270 mm, 2.27 m.
       */
      squaring?: string;
      /**
       * Such as 7 ft 5 1/4 in, 89.25 in, 2270 mm, 2.27 m.
       */
      stick_tolerance?: string;
      /**
       * Accepted chance that an order line runs short.
       */
      running_short?: number;
      /**
       * Such as 7 ft 5 1/4 in, 89.25 in, 2270 mm, 2.27 m.
       */
      earth_width?: string;
    };
    /**
     * Who works.
     */
    crew?: {
      /**
       * People.
       */
      people?: number;
      /**
       * Minutes a day for setting up.
       */
      setup_minutes_per_day?: number;
      /**
       * Minutes a day on the road.
       */
      travel_minutes_per_day?: number;
      /**
       * Hours of a working day.
       */
      hours_per_day?: number;
      /**
       * Pay of one person for an hour.
       */
      hourly?: string | number;
    };
    /**
     * What carries the pipe.
     */
    trailer?: {
      /**
       * Such as 7 ft 5 1/4 in, 89.25 in, 2270 mm, 2.27 m.
       */
      bed?: string;
      /**
       * Load it may carry.
       */
      payload_kg?: number;
    };
    /**
     * Mark-ups.
     */
    price?: {
      /**
       * Share of cost added for overhead.
       */
      overhead?: number;
      /**
       * Share added as tax.
       */
      tax?: number;
      /**
       * Share added as profit.
       */
      profit?: number;
      /**
       * Currency code.
       */
      currency?: string;
    };
    /**
     * Such as 7 ft 5 1/4 in, 89.25 in, 2270 mm, 2.27 m.
     */
    projection?: string;
    /**
     * Such as 7 ft 5 1/4 in, 89.25 in, 2270 mm, 2.27 m.
     */
    trim?: string;
    /**
     * Such as 7 ft 5 1/4 in, 89.25 in, 2270 mm, 2.27 m.
     */
    clearance_accuracy?: string;
    /**
     * Such as 7 ft 5 1/4 in, 89.25 in, 2270 mm, 2.27 m.
     */
    plumb_tolerance?: string;
    /**
     * What is done about ground that does not suit the rails.
     */
    mends?: {
      /**
       * Leg of the bay.
       */
      leg: string;
      /**
       * Such as 7 ft 5 1/4 in, 89.25 in, 2270 mm, 2.27 m.
       */
      station: string;
      /**
       * cut or fill the ground, or hang a filler rail.
       */
      way?: 'cut' | 'fill' | 'filler';
    }[];
    /**
     * Catalogue rows that replace or join the shipped ones, by id.
     */
    overrides?: {
      /**
       * Round pipe.
       */
      pipes?: {
        /**
         * Name of the pipe.
         */
        id: string;
        /**
         * Such as 7 ft 5 1/4 in, 89.25 in, 2270 mm, 2.27 m.
         */
        diameter: string;
        /**
         * Such as 7 ft 5 1/4 in, 89.25 in, 2270 mm, 2.27 m.
         */
        wall: string;
        /**
         * Design wall over nominal wall.
         */
        design_wall_factor?: number;
        /**
         * Kilograms per metre as sold.
         */
        mass_kg_per_m: number;
        /**
         * Yield stress in MPa.
         */
        yield_mpa: number;
        /**
         * Where the row's figures come from.
         */
        source: string;
      }[];
      /**
       * Band-and-sleeve parts.
       */
      fittings?: {
        /**
         * Name of the part.
         */
        id: string;
        /**
         * Directions it serves: one, two in line, two at an angle.
         */
        kind?: 'end' | 'through' | 'corner';
        /**
         * Such as 7 ft 5 1/4 in, 89.25 in, 2270 mm, 2.27 m.
         */
        post_diameter?: string;
        /**
         * Such as 7 ft 5 1/4 in, 89.25 in, 2270 mm, 2.27 m.
         */
        rail_diameter?: string;
        /**
         * Between its ports: 0, 180 or 90.
         */
        port_angle_deg?: number;
        /**
         * How far the rails' angle may be from that.
         */
        angle_tolerance_deg?: number;
        /**
         * How far a rail may be out of level.
         */
        tilt_limit_deg?: number;
        /**
         * Such as 7 ft 5 1/4 in, 89.25 in, 2270 mm, 2.27 m.
         */
        take_off?: string;
        /**
         * Such as 7 ft 5 1/4 in, 89.25 in, 2270 mm, 2.27 m.
         */
        bolt_offset?: string;
        /**
         * Such as 7 ft 5 1/4 in, 89.25 in, 2270 mm, 2.27 m.
         */
        band_height?: string;
        /**
         * Such as 7 ft 5 1/4 in, 89.25 in, 2270 mm, 2.27 m.
         */
        sleeve_diameter?: string;
        /**
         * Such as 7 ft 5 1/4 in, 89.25 in, 2270 mm, 2.27 m.
         */
        sleeve_depth?: string;
        /**
         * Such as 7 ft 5 1/4 in, 89.25 in, 2270 mm, 2.27 m.
         */
        least_engagement?: string;
        /**
         * Newtons it holds along the rail, pushed; 0: unknown.
         */
        axial_push_n?: number;
        /**
         * Newtons it holds along the rail, pulled; 0: unknown.
         */
        axial_pull_n?: number;
        /**
         * Bolts.
         */
        bolts?: number;
        /**
         * Nuts.
         */
        nuts?: number;
        /**
         * Of one.
         */
        price?: string | number;
        /**
         * Of one.
         */
        mass_kg?: number;
        /**
         * Where the row's figures come from.
         */
        source: string;
      }[];
      /**
       * Animals and what holds them.
       */
      animals?: {
        /**
         * Name of the animal.
         */
        id: string;
        /**
         * Such as 7 ft 5 1/4 in, 89.25 in, 2270 mm, 2.27 m.
         */
        least_height?: string;
        /**
         * Such as 7 ft 5 1/4 in, 89.25 in, 2270 mm, 2.27 m.
         */
        largest_bottom_gap?: string;
        /**
         * Such as 7 ft 5 1/4 in, 89.25 in, 2270 mm, 2.27 m.
         */
        smallest_bottom_gap?: string;
        /**
         * Such as 7 ft 5 1/4 in, 89.25 in, 2270 mm, 2.27 m.
         */
        largest_opening?: string;
        /**
         * Such as 7 ft 5 1/4 in, 89.25 in, 2270 mm, 2.27 m.
         */
        trap_from?: string;
        /**
         * Such as 7 ft 5 1/4 in, 89.25 in, 2270 mm, 2.27 m.
         */
        trap_to?: string;
        /**
         * Point load on a rail for the strength check, in newtons.
         */
        push_n?: number;
        /**
         * Where the row's figures come from.
         */
        source: string;
      }[];
      /**
       * Soils.
       */
      soils?: {
        /**
         * Name of the soil.
         */
        id: string;
        /**
         * Allowable lateral bearing, pascals per metre of depth.
         */
        lateral_pa_per_m?: number;
        /**
         * Allowable vertical bearing, pascals.
         */
        bearing_pa?: number;
        /**
         * Lateral bearing is doubled for isolated posts.
         */
        isolated_pole_doubled?: boolean;
        /**
         * Where the row's figures come from.
         */
        source: string;
      }[];
      /**
       * Price book.
       */
      prices?: {
        /**
         * Id of a pipe or supply.
         */
        item: string;
        /**
         * each, ft, m, stick, bag, roll, lb, kg, ton, hour, mile or load.
         */
        unit?: string;
        /**
         * Of one unit.
         */
        price?: string | number;
        /**
         * Sold in multiples of this many units.
         */
        pack?: number;
        /**
         * Where the row's figures come from.
         */
        source: string;
        /**
         * Date of the price, ISO 8601.
         */
        date?: string;
      }[];
      /**
       * Whatever is neither pipe nor fitting.
       */
      supplies?: {
        /**
         * Name of the supply.
         */
        id: string;
        /**
         * mesh, panel, wire, barbed, clip, cap, concrete-bag, concrete-yard, gate-leaf, hinge-set, latch, brace-wire, strainer, bolt or nut.
         */
        kind: string;
        /**
         * Such as 7 ft 5 1/4 in, 89.25 in, 2270 mm, 2.27 m.
         */
        width?: string;
        /**
         * Such as 7 ft 5 1/4 in, 89.25 in, 2270 mm, 2.27 m.
         */
        length?: string;
        /**
         * Yield in cubic metres.
         */
        volume_m3?: number;
        /**
         * Of one.
         */
        mass_kg?: number;
        /**
         * Breaking load of a strand in newtons.
         */
        strength_n?: number;
        /**
         * Of a wire, in millimetres.
         */
        diameter_mm?: number;
        /**
         * Where the row's figures come from.
         */
        source: string;
      }[];
      /**
       * Minutes of work.
       */
      hours?: {
        /**
         * stake, dig, drive, set, trim, measure, cut, band, rail, mesh, panel, wire, brace, gate or clean-up.
         */
        operation: string;
        /**
         * Unit that is counted.
         */
        unit: string;
        /**
         * Minutes of one person for one unit.
         */
        minutes?: number;
        /**
         * Where the row's figures come from.
         */
        source: string;
      }[];
    };
  };
  /**
   * Facts found in the field.
   */
  field?: {
    /**
     * Posts already in the ground; planning works round them.
     */
    posts?: {
      /**
       * Name of the post.
       */
      name: string;
      /**
       * Leg on which it stands.
       */
      leg: string;
      /**
       * Such as 7 ft 5 1/4 in, 89.25 in, 2270 mm, 2.27 m.
       */
      station: string;
      /**
       * Such as 7 ft 5 1/4 in, 89.25 in, 2270 mm, 2.27 m.
       */
      offset?: string;
      /**
       * Outside, where it differs from the plan.
       */
      diameter?: Length | null;
    }[];
    /**
     * Gaps as measured.
     */
    gaps?: {
      /**
       * Name of the bay.
       */
      bay: string;
      /**
       * Numbered from the top.
       */
      rail?: number;
      /**
       * Such as 7 ft 5 1/4 in, 89.25 in, 2270 mm, 2.27 m.
       */
      gap: string;
      /**
       * How it was taped.
       */
      way?: 'level' | 'slope';
    }[];
    /**
     * Rails already cut.
     */
    cut?: {
      /**
       * Name of the rail.
       */
      rail: string;
      /**
       * Such as 7 ft 5 1/4 in, 89.25 in, 2270 mm, 2.27 m.
       */
      length: string;
    }[];
    /**
     * Sticks on the trailer or in the yard.
     */
    sticks?: {
      /**
       * Name of the stick.
       */
      name: string;
      /**
       * Pipe row.
       */
      pipe: string;
      /**
       * Such as 7 ft 5 1/4 in, 89.25 in, 2270 mm, 2.27 m.
       */
      length: string;
      /**
       * How many are alike.
       */
      count?: number;
      /**
       * Such as 7 ft 5 1/4 in, 89.25 in, 2270 mm, 2.27 m.
       */
      crop?: string;
    }[];
    /**
     * Names of posts set and bays bolted.
     */
    done?: string[];
  };
  /**
   * Names once printed, bought or cut; later plans honour them.
   */
  issued?: {
    /**
     * Posts.
     */
    posts?: {
      /**
       * Name of the post.
       */
      name: string;
      /**
       * Leg on which it stood.
       */
      leg?: string;
      /**
       * Such as 7 ft 5 1/4 in, 89.25 in, 2270 mm, 2.27 m.
       */
      station?: string;
      /**
       * True: the name is not used again.
       */
      retired?: boolean;
    }[];
    /**
     * Bays.
     */
    bays?: {
      /**
       * Name of the bay.
       */
      name: string;
      /**
       * Post where it begins.
       */
      from?: string;
      /**
       * Post where it ends.
       */
      to?: string;
      /**
       * True: the name is not used again.
       */
      retired?: boolean;
    }[];
  };
}
