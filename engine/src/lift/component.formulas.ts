import { formula } from '../working/formula.ts'

/** Tension of a leg if only so many of several like ones carry. */
export const legsByRule = formula({
  id: 'lift.leg.by-rule',
  title: 'Tension of a leg when only some of several like legs carry',
  source: {
    basis: 'read',
    text: '29 CFR 1926.251 guide, chain: four legs rated as three; two opposite legs carry all is common practice for rigid pieces',
  },
  gives: ['T', 'N'],
  from: {
    W: ['N', 'load on the legs'],
    n: ['1', 'legs that carry'],
    beta: ['rad', 'angle of the flattest leg from the vertical'],
  },
  as: 'W / (n * cos(beta))',
  valid: ['n >= 1', 'beta < 1.4'],
})

/** Efficiency of wire rope bent over a pin. */
export const bendEfficiency = formula({
  id: 'lift.sling.bend-efficiency',
  title: 'Strength of wire rope bent over a pin, as a share of straight rope',
  source: {
    basis: 'read',
    text: 'IMCA M 179 as quoted in 0027/ND: 1 − 0.5/√(D/d); rope handbooks agree below D/d = 10',
  },
  gives: ['e', '1'],
  from: { D: ['m', 'pin'], d: ['m', 'body of the sling'] },
  as: '1 - 0.5 / sqrt(D / d)',
  valid: ['D / d >= 1'],
})

/** Rated force of a sling over a pin tighter than its rating assumes. */
export const bentRating = formula({
  id: 'lift.sling.bent-rating',
  title: 'Force that a sling is rated for over this pin',
  source: {
    basis: 'derived',
    text: 'rating × efficiency at this bend / efficiency at the bend that the rating assumes, at most 1',
  },
  gives: ['F', 'N'],
  from: {
    F0: ['N', 'rated force'],
    e: ['1', 'efficiency over this pin'],
    b: ['1', 'D/d that the rating assumes'],
  },
  as: 'F0 * min(1, e / (1 - 0.5 / sqrt(b)))',
  valid: ['b >= 1'],
})

/** What a bridle counts for when every leg is taken alike, as its tag says. */
export const uniformBridle = formula({
  id: 'lift.bridle.uniform',
  title: 'Legs that a bridle counts for, by bands of angle',
  source: {
    basis: 'read',
    text: 'EN 818-4 and EN 13414-1 uniform load method, in a catalogue and a chain brochure: 1.4 and 1.0 for two legs, 2.1 and 1.5 for three and four',
  },
  gives: ['K', '1'],
  from: { n: ['1', 'legs'], beta: ['rad', 'angle of the flattest leg from the vertical'] },
  as: 'if(n <= 2, if(beta <= 0.78541, 1.4, 1), if(beta <= 0.78541, 2.1, 1.5))',
  valid: ['n >= 2', 'beta <= 1.04721'],
})

/** What a bridle counts for by its angle. */
export const bridleByAngle = formula({
  id: 'lift.bridle.by-angle',
  title: 'Legs that a bridle counts for, by the cosine of its angle',
  source: {
    basis: 'read',
    text: '29 CFR 1926.251 guide, chain tables: n × sine of the horizontal angle, four legs rated as three; the trigonometric method of EN 818-4 is the same',
  },
  gives: ['K', '1'],
  from: { n: ['1', 'legs'], beta: ['rad', 'angle of the flattest leg from the vertical'] },
  as: 'min(n, 3) * cos(beta)',
  valid: ['n >= 1', 'beta <= 1.04721'],
})

/** Rated load of a bridle. */
export const bridleRating = formula({
  id: 'lift.bridle.rating',
  title: 'Force that a bridle is rated for',
  source: { basis: 'derived', text: 'legs that it counts for × force of one leg in straight lift' },
  gives: ['F', 'N'],
  from: { K: ['1', 'legs that it counts for'], F_1: ['N', 'rated force of one leg'] },
  as: 'K * F_1',
})

/** Tension of a leg that a bridle's rule stands for. */
export const bridleTension = formula({
  id: 'lift.bridle.tension',
  title: 'Tension of a leg that the rule stands for',
  source: { basis: 'derived', text: 'load over the legs that the bridle counts for' },
  gives: ['T', 'N'],
  from: { W: ['N', 'load on the bridle'], K: ['1', 'legs that it counts for'] },
  as: 'W / K',
  valid: ['K > 0'],
})

/** Tension of a leg with a factor for skew. */
export const skewTension = formula({
  id: 'lift.bridle.skew',
  title: 'Tension of a leg with a factor for unequal lengths on a diagonal',
  source: {
    basis: 'read',
    text: 'marine lifting guideline 0027/ND 5.6.12: 1.25 for four slings in matched pairs to one hook, ± 2 d, at most 1 d in a pair; otherwise by elasticity',
  },
  gives: ['T', 'N'],
  from: {
    W: ['N', 'load on the bridle'],
    n: ['1', 'legs'],
    beta: ['rad', 'angle of the flattest leg from the vertical'],
    S: ['1', 'factor for skew'],
  },
  as: 'S * W / (n * cos(beta))',
  valid: ['n >= 1', 'beta < 1.4', 'S >= 1'],
})

/** What a choke hitch leaves of a rating. */
export const chokeFactor = formula({
  id: 'lift.sling.choke',
  title: 'Share of the straight rating in a choke hitch',
  source: {
    basis: 'read',
    text: 'choke table of a chain brochure: 0.80 from 120° on, 0.65 from 90°, 0.55 from 60°, 0.40 from 30°',
  },
  gives: ['h', '1'],
  from: {
    c_0: ['1', 'share at an open choke, by the kind of sling and the rules'],
    a: ['rad', 'angle of choke'],
  },
  as: 'min(c_0, if(a >= 2.09439, 0.8, if(a >= 1.57079, 0.65, if(a >= 1.04719, 0.55, 0.4))))',
  valid: ['a >= 0.52359', 'c_0 <= 0.8'],
})

/** What a basket hitch makes of a rating. */
export const basketFactor = formula({
  id: 'lift.sling.basket',
  title: 'Rating in a basket hitch, in straight ratings',
  source: {
    basis: 'read',
    text: 'sling data sheet and US Navy training course: twice the cosine of a side from the vertical',
  },
  gives: ['h', '1'],
  from: { a: ['rad', 'angle of each side from the vertical'] },
  as: '2 * cos(a)',
  valid: ['a <= 1.04721'],
})

/** Force of a leg in its hitch. */
export const hitchRating = formula({
  id: 'lift.sling.hitch-rating',
  title: 'Force that a leg is rated for in its hitch',
  source: { basis: 'derived', text: 'straight rating × factor of the hitch' },
  gives: ['F', 'N'],
  from: { F_0: ['N', 'rated force in straight lift'], h: ['1', 'factor of the hitch'] },
  as: 'F_0 * h',
})

/** What heat leaves of the rating of a chain. */
export const chainHeat = formula({
  id: 'lift.chain.heat',
  title: 'Share of the rating of a grade 8 chain when hot',
  source: {
    basis: 'read',
    text: 'EN 818-4 in a catalogue: full from −40 °C to 200 °C, 0.90 to 300 °C, 0.75 to 400 °C, nothing above',
  },
  gives: ['h', '1'],
  from: { T: ['K', 'temperature'], per_K: ['1/K', 'for each kelvin'] },
  where: { q: ['1', 'T * per_K', 'kelvins'] },
  as: 'if(q <= 473.15, 1, if(q <= 573.15, 0.9, if(q <= 673.15, 0.75, 0)))',
  valid: ['per_K > 0', 'T * per_K >= 233.15'],
})

/** What a pull out of line leaves of the rating of a shackle. */
export const sidePull = formula({
  id: 'lift.shackle.side',
  title: 'Share of the rating of a bow shackle pulled out of line',
  source: {
    basis: 'read',
    text: 'reductions in shackle catalogues: 1.00 in line, 0.70 up to 45° in the plane of the bow, 0.50 up to 90°; never across the pin. In line is taken up to 5°, from memory',
  },
  gives: ['h', '1'],
  from: { a: ['rad', 'pull from the line of the shackle, in the plane of the bow'] },
  as: 'if(a <= 0.08727, 1, if(a <= 0.78541, 0.7, 0.5))',
  valid: ['a <= 1.5708'],
})

/** How thick what stands in a shackle's jaw must be. */
export const jawFill = formula({
  id: 'lift.shackle.fill',
  title: 'Least thickness in the jaw of a shackle',
  source: { basis: 'read', text: 'note on a published lug sheet: the lug fills 80 % of the jaw, or spacers centre it' },
  gives: ['t', 'm'],
  from: { w: ['m', 'inside width of the jaw'] },
  as: '0.8 * w',
})
