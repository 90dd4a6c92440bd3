/** Reads GPX 1.1 (Topografix schema): tracks by time, and waypoints as a table. */
import { XMLParser } from 'fast-xml-parser'
import type { InputFile, Problem, ReadResult, Table, Track } from './input'
import { leftOut, nothingIn, stemOf } from './result'
import { parseMoment } from './time'

/** GPX nests seven deep; extensions add a few. */
const DEEPEST = 40
const MOST_BYTES = 200_000_000

type Node = Readonly<Record<string, unknown>>

/** Reads a GPX text. Document types and entities are refused: GPX has no use for them. */
export function readGpx(file: InputFile, text: string): ReadResult {
  const unsafe = whyUnsafe(text)
  if (unsafe !== null) return leftOut(file.path, null, unsafe, 'export the track again')
  const breakAt = whereItBreaksOff(text)
  let root: Node
  try {
    root = asNode(parser().parse(text.slice(0, breakAt ?? text.length)))
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error)
    return leftOut(file.path, null, `no well-formed XML: ${why}`, 'export the track again')
  }
  if (root.gpx === undefined) return notGpx(file.path, root)
  const gpx = asNode(root.gpx)
  const problems: Problem[] = []
  if (breakAt !== null) problems.push(brokenOff(file.path))
  const tracks = listOf(gpx.trk).flatMap((track) =>
    readSegments(file.path, asNode(track), problems),
  )
  const waypoints = listOf(gpx.wpt).map(asNode)
  const tables = waypoints.length > 0 ? [waypointTable(file.path, waypoints, text)] : []
  if (tracks.length === 0 && tables.length === 0 && problems.length === 0) {
    const problem = 'GPX without a track that has times, and without waypoints'
    return leftOut(file.path, null, problem, 'export the track log, not the route')
  }
  const kind = tracks.length > 0 ? 'track' : tables.length > 0 ? 'table' : 'unknown'
  return { ...nothingIn(kind, problems), tracks, tables }
}

/** What else an XML text is, and what to save instead. */
function notGpx(file: string, root: Node): ReadResult {
  if (root.kml !== undefined) {
    const advice = 'save a track as GPX 1.1, places as CSV or GeoJSON'
    return leftOut(file, null, 'KML, which is not read', advice)
  }
  if (root.Workbook !== undefined)
    return leftOut(file, null, 'a spreadsheet saved as XML, not text', 'save its table as CSV')
  return leftOut(file, null, 'XML, but not GPX', 'export a track as GPX 1.1, scans as text')
}

function parser(): XMLParser {
  return new XMLParser({
    ignoreAttributes: false,
    attributeNamePrefix: '@',
    parseTagValue: false,
    parseAttributeValue: false,
    processEntities: false,
    removeNSPrefix: true,
    trimValues: true,
  })
}

function whyUnsafe(text: string): string | null {
  if (text.length > MOST_BYTES) return 'a GPX file of over 200 MB'
  if (/<!(DOCTYPE|ENTITY)/iu.test(text))
    return 'XML with a document type or entities, which GPX never has'
  let depth = 0
  for (const match of text.matchAll(/<(\/?)[A-Za-z_][^<>]*?(\/?)>/g)) {
    if (match[1] === '/') depth--
    else if (match[2] !== '/' && ++depth > DEEPEST) return `XML nested deeper than ${DEEPEST}`
  }
  return null
}

const END_OF_GPX = /<\/(?:[^\s<>:/]{1,100}:)?gpx\s*>/u
const END_OF_POINT = /<\/(?:[^\s<>:/]{1,100}:)?(?:trkpt|wpt)\s*>/gu

/**
 * The end of the last whole point where a text breaks off, as it does when a battery runs out;
 * null where it has its end, or no point.
 */
function whereItBreaksOff(text: string): number | null {
  if (END_OF_GPX.test(text)) return null
  let end: number | null = null
  for (const { index, 0: tag } of text.matchAll(END_OF_POINT)) end = index + tag.length
  return end
}

function brokenOff(file: string): Problem {
  return {
    file,
    line: null,
    problem: 'GPX without its end: the file breaks off',
    done: 'the points before the break are used; copy it again if there should be more',
  }
}

function readSegments(file: string, track: Node, problems: Problem[]): Track[] {
  const name = textOf(track.name) ?? stemOf(file)
  return listOf(track.trkseg).flatMap((segment) => {
    const made = readSegment(file, name, listOf(asNode(segment).trkpt).map(asNode), problems)
    return made === null ? [] : [made]
  })
}

/** One unbroken stretch of a track, so that nothing is interpolated over its breaks. */
function readSegment(
  file: string,
  name: string,
  points: readonly Node[],
  problems: Problem[],
): Track | null {
  const fixes = points
    .map((point) => ({
      time: parseMoment(textOf(point.time) ?? '')?.seconds ?? NaN,
      longitude: decimal(point['@lon']),
      latitude: decimal(point['@lat']),
      elevation: decimal(point.ele),
    }))
    .filter(({ longitude, latitude }) => Math.abs(longitude) <= 180 && Math.abs(latitude) <= 90)
  const timed = fixes.filter(({ time }) => !Number.isNaN(time)).sort((a, b) => a.time - b.time)
  const kept = timed.filter(({ time }, i) => i === 0 || time > timed[i - 1].time)
  const lost = points.length - timed.length
  if (lost > 0) {
    problems.push({
      file,
      line: null,
      problem: `${lost} of ${points.length} fixes of the track ${name} have no time or no position`,
      done:
        kept.length === 0
          ? 'the track was left out; export it with the time of each fix'
          : 'those fixes were left out; scans are placed by the others',
    })
  }
  if (kept.length === 0) return null
  return {
    file,
    name,
    times: Float64Array.from(kept, (fix) => fix.time),
    longitudes: Float64Array.from(kept, (fix) => fix.longitude),
    latitudes: Float64Array.from(kept, (fix) => fix.latitude),
    elevations: Float64Array.from(kept, (fix) => fix.elevation),
  }
}

const WAYPOINT_HEADER = [
  'name',
  'latitude',
  'longitude',
  'elevation',
  'time',
  'comment',
  'description',
]

function waypointTable(file: string, waypoints: readonly Node[], text: string): Table {
  const rows = waypoints.map((point) =>
    [point.name, point['@lat'], point['@lon'], point.ele, point.time, point.cmt, point.desc].map(
      (value) => textOf(value) ?? '',
    ),
  )
  return { file, header: WAYPOINT_HEADER, rows, lines: waypointLines(text, rows.length) }
}

/** A line's end, or the beginning of a waypoint under whatever prefix its namespace has. */
const LINE_OR_WAYPOINT = /\n|<(?:[^\s<>:/]{1,100}:)?wpt(?=[\s/>])/gu

/** The 1-based lines on which the first waypoints begin. */
function waypointLines(text: string, count: number): number[] {
  const lines: number[] = []
  let line = 1
  for (const [found] of text.matchAll(LINE_OR_WAYPOINT)) {
    if (found === '\n') line++
    else if (lines.push(line) === count) break
  }
  // One that stands in a comment or under another name: no later than the last that was seen.
  while (lines.length < count) lines.push(line)
  return lines
}

function asNode(value: unknown): Node {
  return typeof value === 'object' && value !== null ? (value as Node) : {}
}

function listOf(value: unknown): readonly unknown[] {
  if (value === undefined || value === '') return []
  return Array.isArray(value) ? (value as unknown[]) : [value]
}

const ENTITIES: Readonly<Record<string, string>> = {
  amp: '&',
  lt: '<',
  gt: '>',
  quot: '"',
  apos: "'",
}

/** An element's text with XML's five own entities and character numbers put back. */
function textOf(value: unknown): string | null {
  const text = typeof value === 'object' && value !== null ? asNode(value)['#text'] : value
  if (typeof text !== 'string' || text.trim() === '') return null
  return text
    .replace(
      /&(?:#(\d{1,7})|#x([\da-f]{1,6})|(amp|lt|gt|quot|apos));/giu,
      (all, ten, hex, word) => {
        if (word !== undefined) return ENTITIES[String(word).toLowerCase()]
        const code = ten === undefined ? parseInt(String(hex), 16) : Number(ten)
        return code > 0 && code <= 0x10ffff ? String.fromCodePoint(code) : String(all)
      },
    )
    .trim()
    .normalize('NFC')
}

function decimal(value: unknown): number {
  const text = textOf(value)
  return text === null ? NaN : Number(text)
}
