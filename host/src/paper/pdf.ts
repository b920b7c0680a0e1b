import { readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import {
  type Drawing,
  INKS,
  type Mark,
  type PaperPoint,
  type Photograph,
  type Primitive,
  primitivesOf,
  type Stroke,
  type Text,
} from '@shieldwright/engine/report/drawing.ts'
import { type Face, textWidth } from '@shieldwright/engine/report/fontWidth.ts'
import { isRightToLeft } from '@shieldwright/engine/report/rightToLeft.ts'
import PDFDocument from 'pdfkit'
import { visualRuns } from './visualRuns.ts'

const POINTS_PER_MM = 72 / 25.4

const fontFile = (weight: number): Buffer =>
  readFileSync(fileURLToPath(new URL(`../../../assets/fonts/shieldwright-sans-${weight}.ttf`, import.meta.url)))

export interface Paper {
  title: string
  subject: string
  /** Written into the file; the same date gives the same bytes. */
  date: Date
  /** BCP 47. */
  language?: string
}

/**
 * Drawings as one PDF, a page each, at true size. The same drawings and date give the same bytes; the words can be searched
 * and copied, and each page carries its title and its words as tagged content.
 * Where a chapter begins there is a bookmark.
 *
 * @param drawings in turn: whoever hands them over one by one can show how far it is
 * @param pictures bytes of every photograph on the drawings, by hash
 * @throws where a drawing shows a photograph that is not among them
 */
export async function pdfOf(
  drawings: Iterable<Drawing> | AsyncIterable<Drawing>,
  paper: Paper,
  pictures: Pictures = new Map(),
): Promise<Uint8Array> {
  const document = new PDFDocument({
    autoFirstPage: false,
    pdfVersion: '1.7',
    tagged: true,
    displayTitle: true,
    lang: paper.language ?? 'en',
    info: {
      Title: paper.title,
      Subject: paper.subject,
      Creator: 'Shieldwright',
      Producer: 'Shieldwright',
      CreationDate: paper.date,
      ModDate: paper.date,
    },
  })
  const bytes = collected(document)
  document.registerFont('400', fontFile(400))
  document.registerFont('700', fontFile(700))
  for await (const page of drawings) addPage(document, page, pictures)
  document.end()
  return bytes
}

/** JPEG and PNG that the library reads, by the hash that drawings name them by. */
export type Pictures = ReadonlyMap<string, Uint8Array>

/** Whether the writer can put a picture on paper. */
export function canBeOpened(bytes: Uint8Array): boolean {
  try {
    openImage(new PDFDocument({ autoFirstPage: false }), bytes)
    return true
  } catch {
    return false
  }
}

/** The library has this function, its types do not. */
const openImage = (document: Pdf, bytes: Uint8Array): void =>
  (document as Pdf & { openImage: (bytes: Buffer) => void }).openImage(Buffer.from(bytes))

type Pdf = InstanceType<typeof PDFDocument>

function collected(document: Pdf): Promise<Uint8Array> {
  return new Promise((resolve, reject) => {
    const chunks: Buffer[] = []
    document.on('data', (chunk: Buffer) => chunks.push(chunk))
    document.on('end', () => resolve(new Uint8Array(Buffer.concat(chunks))))
    document.on('error', reject)
  })
}

function addPage(document: Pdf, drawing: Drawing, pictures: Pictures): void {
  document.addPage({ size: [drawing.width * POINTS_PER_MM, drawing.height * POINTS_PER_MM], margin: 0 })
  if (drawing.chapter !== undefined) document.outline.addItem(drawing.chapter)
  document.scale(POINTS_PER_MM)
  const section = document.struct('Sect', { title: drawing.title })
  document.addStructure(section)
  for (const part of partsOf(drawing.marks)) {
    const content = document.struct(part.figure ? 'Figure' : 'P', { alt: part.title }, () => {
      for (const mark of part.marks) put(document, mark, pictures)
    })
    section.add(content)
  }
  section.end()
}

interface Part {
  title: string
  figure: boolean
  marks: readonly Primitive[]
}

/** Views become figures with their title as the words that stand for them; everything between them is one paragraph. */
function partsOf(marks: readonly Mark[]): Part[] {
  const parts: Part[] = []
  let between: Primitive[] = []
  const close = (): void => {
    if (between.length > 0) parts.push({ title: 'text', figure: false, marks: between })
    between = []
  }
  for (const mark of marks) {
    if (mark.kind === 'view') {
      close()
      parts.push({ title: mark.title, figure: true, marks: primitivesOf([mark]) })
    } else between.push(...primitivesOf([mark]))
  }
  close()
  return parts
}

function put(document: Pdf, mark: Primitive, pictures: Pictures): void {
  switch (mark.kind) {
    case 'line':
      path(document, mark.points)
      setStroke(document, mark.stroke)
      document.stroke()
      return
    case 'shape':
      for (const loop of mark.loops) {
        path(document, loop)
        document.closePath()
      }
      paint(document, mark)
      return
    case 'circle':
      document.circle(mark.centre[0], mark.centre[1], mark.radius)
      paint(document, mark)
      return
    case 'text':
      putText(document, mark)
      return
    case 'photograph':
      putPhotograph(document, mark, pictures)
      return
    default:
      mark satisfies never
  }
}

function path(document: Pdf, points: readonly PaperPoint[]): void {
  points.forEach(([x, y], i) => {
    if (i === 0) document.moveTo(x, y)
    else document.lineTo(x, y)
  })
}

/** The library takes a whole pattern where its types know a single length. */
function setStroke(document: Pdf, { width, ink, dash }: Stroke): void {
  document.lineWidth(width).lineJoin('round').lineCap('butt').strokeColor(INKS[ink])
  if (dash === undefined) document.undash()
  else document.dash(dash as unknown as number, {})
}

function paint(document: Pdf, { fill, stroke }: Extract<Primitive, { kind: 'shape' | 'circle' }>): void {
  if (stroke !== undefined) setStroke(document, stroke)
  if (fill !== undefined) document.fillColor(INKS[fill])
  if (fill !== undefined && stroke !== undefined) document.fillAndStroke(INKS[fill], INKS[stroke.ink], 'even-odd')
  else if (fill !== undefined) document.fill('even-odd')
  else document.stroke()
}

function putPhotograph(document: Pdf, { hash, box }: Photograph, pictures: Pictures): void {
  const bytes = pictures.get(hash)
  if (bytes === undefined) throw new Error(`a drawing shows the photograph ${hash}, whose bytes were not given`)
  const fit: [number, number] = [box.right - box.left, box.bottom - box.top]
  document.image(Buffer.from(bytes), box.left, box.top, { fit, align: 'center', valign: 'center' })
}

function putText(document: Pdf, { text, at: [x, y], anchor, size, weight, tabular, ink, turn, width }: Text): void {
  const before = anchor === 'start' ? 0 : anchor === 'middle' ? width / 2 : width
  document.save()
  document.translate(x, y)
  if (turn === 90) document.rotate(-90)
  document.font(String(weight)).fontSize(size).fillColor(INKS[ink])
  if (isRightToLeft(text)) putRuns(document, text, -before, { size, weight, tabular })
  else document.text(text, -before, 0, lineOf(tabular))
  document.restore()
}

/** Stretch by stretch, as they are seen. */
function putRuns(document: Pdf, text: string, from: number, face: Face): void {
  let at = from
  for (const run of visualRuns(text)) {
    document.text(run, at, 0, lineOf(face.tabular))
    at += textWidth(run, face)
  }
}

const lineOf = (tabular: boolean): PDFKit.Mixins.TextOptions => ({
  lineBreak: false,
  baseline: 'alphabetic',
  features: tabular ? ['tnum'] : [],
})
