/** A thread as its text says it, m. */
export interface Thread {
  /** Nominal diameter. */
  d: number
  pitch: number
  form: 'metric' | 'inch'
  /** The pitch is that of the coarse series, not written in the text. */
  coarse: boolean
}

const MM = 1e-3
const INCH = 0.0254

/** Coarse pitch, mm, by nominal diameter, mm (ISO 261, from memory; stress areas of ISO 898-1 agree). */
const COARSE: Readonly<Record<number, number>> = {
  8: 1.25,
  10: 1.5,
  12: 1.75,
  14: 2,
  16: 2,
  18: 2.5,
  20: 2.5,
  22: 2.5,
  24: 3,
  27: 3,
  30: 3.5,
  33: 3.5,
  36: 4,
  39: 4,
  42: 4.5,
  45: 4.5,
  48: 5,
  52: 5,
  56: 5.5,
  60: 5.5,
  64: 6,
  72: 6,
  80: 6,
  90: 6,
  100: 6,
}

/** Threads on an inch of the coarse unified series, by nominal diameter in inches (ASME B1.1, from memory; AISC's pretensions agree). */
const COARSE_INCH: Readonly<Record<number, number>> = {
  0.5: 13,
  0.625: 11,
  0.75: 10,
  0.875: 9,
  1: 8,
  1.125: 7,
  1.25: 7,
  1.375: 6,
  1.5: 6,
}

/**
 * Thread from words such as "M64", "M64x4", "1-1/4 in" or "1-1/4-7 UNC". Undefined where they mean none, or a size whose
 * coarse pitch is not in the table.
 */
export function threadOf(text: string): Thread | undefined {
  const metric = /^M\s?(\d+(?:\.\d+)?)(?:\s?[x×]\s?(\d+(?:\.\d+)?))?$/i.exec(text.trim())
  if (metric !== null) {
    const d = Number(metric[1])
    const pitch = metric[2] === undefined ? COARSE[d] : Number(metric[2])
    if (pitch === undefined || pitch <= 0 || pitch >= d) return undefined
    return { d: d * MM, pitch: pitch * MM, form: 'metric', coarse: metric[2] === undefined }
  }
  return inchThread(text)
}

function inchThread(text: string): Thread | undefined {
  const inch = /^(?:(\d+)(?:[\s-](?=\d+\/))?)?(?:(\d+)\/(\d+))?\s?(?:in|")?(?:\s?-\s?(\d+))?(?:\s?UNC?)?$/i.exec(
    text.trim(),
  )
  if (inch === null) return undefined
  const d = Number(inch[1] ?? 0) + (inch[2] === undefined ? 0 : Number(inch[2]) / Number(inch[3]))
  const threads = inch[4] === undefined ? COARSE_INCH[d] : Number(inch[4])
  if (!(d > 0) || threads === undefined) return undefined
  return { d: d * INCH, pitch: INCH / threads, form: 'inch', coarse: inch[4] === undefined }
}

/** Strengths of a grade, Pa. */
export interface Grade {
  name: string
  proof: number
  yield: number
  tensile: number
  /** Tensile strength by which steelwork sets the preload: the first figure of an ISO class times a hundred. */
  nominal: number
  source: string
  /** Why bolts that have been tightened may not go back in; undefined where they may. */
  onceOnly?: string
}

const MPA = 1e6
const KSI = 6.894757293168361e6

const iso = (name: string, proof: number, yields: number, tensile: number, onceOnly?: string): Grade => ({
  name,
  proof: proof * MPA,
  yield: yields * MPA,
  tensile: tensile * MPA,
  nominal: Math.floor(Number(name)) * 100 * MPA,
  source: `class ${name}, ISO 898-1 (proof and tensile as read in reproduced tables, yield from memory)`,
  ...(onceOnly === undefined ? {} : { onceOnly }),
})

const us = (name: string, proof: number, yields: number, tensile: number, onceOnly?: string): Grade => ({
  name,
  proof: proof * KSI,
  yield: yields * KSI,
  tensile: tensile * KSI,
  nominal: tensile * KSI,
  source: `grade ${name}, ASTM F3125 (tensile as AISC 360 has it, proof and yield from memory)`,
  ...(onceOnly === undefined ? {} : { onceOnly }),
})

/** From this size on the classes 8.8 are stronger (ISO 898-1). */
const ABOVE_M16 = 16.5 * MM

/** Strengths of a grade at a diameter; undefined where the grade is not in the table. */
export function gradeOf(text: string, diameter: number): Grade | undefined {
  switch (text.trim().toUpperCase()) {
    case '8.8':
      return diameter < ABOVE_M16 ? iso('8.8', 580, 640, 800) : iso('8.8', 600, 660, 830)
    case '10.9':
      return iso('10.9', 830, 940, 1040)
    case '12.9':
      return iso('12.9', 970, 1100, 1220, 'class 12.9 is not used again: common practice, no source')
    case 'A325':
      return us('A325', 85, 92, 120)
    case 'A490':
      return us('A490', 120, 130, 150, 'A490 is not used again (RCSC specification 2.3.3, from memory)')
    default:
      return undefined
  }
}

/** Outer diameter of the face under a hexagon head, mm (ISO 4014, from memory). */
const HEAD: Readonly<Record<number, number>> = {
  10: 14.6,
  12: 16.6,
  16: 22.5,
  20: 28.2,
  24: 33.6,
  27: 38,
  30: 42.8,
  33: 46.6,
  36: 51.1,
  39: 55.9,
  42: 60,
  48: 69.5,
  56: 78.7,
  64: 88.2,
}

/** Diameter of the hole of the medium series, mm (ISO 273, from memory). */
const HOLE: Readonly<Record<number, number>> = {
  10: 11,
  12: 13.5,
  16: 17.5,
  20: 22,
  24: 26,
  27: 30,
  30: 33,
  33: 36,
  36: 39,
  39: 42,
  42: 45,
  48: 52,
  56: 62,
  64: 70,
  72: 78,
  80: 86,
}

const inTable = (table: Readonly<Record<number, number>>, d: number): number | undefined => {
  const known = table[Math.round(d / MM)]
  return known === undefined ? undefined : known * MM
}

/** Outer diameter under a hexagon head of this size, m. */
export const headOf = ({ d, form }: Thread): number | undefined => (form === 'metric' ? inTable(HEAD, d) : undefined)

/** Diameter of a medium hole for this size, m. */
export const holeOf = ({ d, form }: Thread): number | undefined => (form === 'metric' ? inTable(HOLE, d) : undefined)
