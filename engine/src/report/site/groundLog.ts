import { pointerOf } from '../../working/pointer.ts'
import { line, type Mark, type PaperBox, type PaperPoint, type Shape, standFor, text } from '../drawing.ts'
import { wrapText } from '../fontWidth.ts'
import { AXIS, FINE, SMALL, THIN } from '../paper/pen.ts'
import { onPaper, type Placing } from '../paper/scale.ts'
import { spread } from '../paper/spread.ts'
import { lengthText, levelText } from '../sheet/figures.ts'
import type { SiteSubject } from './subject.ts'

/** Widths of the column of water levels and of the log of layers, mm. */
export const WATER_WIDTH = 30
export const LOG_WIDTH = 46
const LEVEL_WIDTH = 13
const STEP = 2.75
const KINK = 4

/** Beside a section: each layer's level at its top and its name, tied to the cut. */
export function layerLog({ stages, units }: SiteSubject, placing: Placing, window: PaperBox): Mark[] {
  const { ground } = stages.model.project
  const layers = Object.entries(ground?.layers ?? {})
    .map(([id, layer]) => ({
      id,
      name: layer.name,
      top: layer.top.value as number,
      bottom: layer.bottom.value as number,
    }))
    .filter(({ top, bottom }) => yOf(placing, top) < window.bottom && yOf(placing, bottom) > window.top)
    .sort((a, b) => b.top - a.top)
  const left = window.right + WATER_WIDTH
  const places = spread(
    layers.map(({ top }) => Math.max(window.top, yOf(placing, top))),
    STEP,
  )
  return layers.flatMap(({ id, name, top, bottom }, i) => {
    const y = Math.max(window.top, yOf(placing, top))
    const at = places[i] as number
    const next = Math.min(places[i + 1] ?? window.bottom, Math.max(yOf(placing, bottom), at + STEP))
    return [
      standFor(pointerOf('ground', 'layers', id), `${id}, ${name}, from ${levelText(top, units)}`, [
        line(
          [
            [window.right, y],
            [left - KINK, y],
            [left, at],
            [left + LEVEL_WIDTH, at],
          ],
          FINE,
        ),
        text([left + LEVEL_WIDTH - 0.6, at - 0.5], levelText(top, units), { size: SMALL, anchor: 'end' }),
        ...nameLines(`${id} ${name}`, next - at).map((words, k) =>
          text([left + LEVEL_WIDTH + 1.5, at + 0.6 + (k + 1) * STEP - 0.9], words, {
            size: SMALL,
            weight: k === 0 ? 700 : 400,
          }),
        ),
      ]),
    ]
  })
}

const yOf = (placing: Placing, z: number): number => onPaper(placing, [0, z])[1]

/** As many lines as the layer has room for; the whole name stands in the table. */
function nameLines(words: string, room: number): string[] {
  const lines = wrapText(words, { size: SMALL, weight: 700, tabular: false }, LOG_WIDTH - LEVEL_WIDTH - 2)
  const most = Math.max(1, Math.floor((room - 0.4) / STEP))
  return lines.length <= most ? lines : [...lines.slice(0, most - 1), `${lines[most - 1]}…`]
}

/** Heads of the water beside a section: at rest, and drawn down. */
export function waterMarks({ stages, units }: SiteSubject, placing: Placing, window: PaperBox): Mark[] {
  const { ground } = stages.model.project
  const heads = Object.entries(ground?.water ?? {})
    .flatMap(([id, w]) => [
      { id, z: w.head.value as number, words: headWords(id, w.head.value as number, w.tide?.value, units) },
      ...(w.drawnDown?.value === undefined
        ? []
        : [{ id, z: w.drawnDown.value, words: `${id} ${levelText(w.drawnDown.value, units)} pumped` }]),
    ])
    .filter(({ z }) => yOf(placing, z) > window.top && yOf(placing, z) < window.bottom)
    .sort((a, b) => b.z - a.z)
  const places = spread(
    heads.map(({ z }) => yOf(placing, z)),
    3.4,
  )
  return heads.map(({ id, z, words }, i) => {
    const [y, at] = [yOf(placing, z), places[i] as number]
    const x = window.right + KINK
    return standFor(pointerOf('ground', 'water', id), words, [
      line(
        [
          [window.right - 14, y],
          [window.right, y],
        ],
        AXIS,
      ),
      line(
        [
          [window.right, y],
          [x, at],
          [x + 5, at],
        ],
        FINE,
      ),
      waterTriangle([x + 2.4, at]),
      line(
        [
          [x + 1.5, at + 0.55],
          [x + 3.3, at + 0.55],
        ],
        FINE,
      ),
      line(
        [
          [x + 1.9, at + 1],
          [x + 2.9, at + 1],
        ],
        FINE,
      ),
      text([x + 5.4, at + SMALL * 0.36], words, { size: SMALL }),
    ])
  })
}

const waterTriangle = ([x, y]: PaperPoint): Shape => ({
  kind: 'shape',
  loops: [
    [
      [x, y],
      [x - 1.1, y - 1.8],
      [x + 1.1, y - 1.8],
    ],
  ],
  fill: 'ink',
  stroke: THIN,
})

const headWords = (id: string, head: number, tide: number | undefined, units: SiteSubject['units']): string =>
  `${id} ${levelText(head, units)}${tide === undefined ? '' : ` ±${lengthText(tide, units)}`}`
