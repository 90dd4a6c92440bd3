/** The text layouts in which scans are written: another one each day, as instruments do. */
import { toDegrees } from './place'
import { CLOCK_BEHIND, WAVELENGTHS, type MadeScan, type Spot } from './sampling'

/** The days' folders. */
const FOLDERS: Readonly<Record<string, string>> = {
  A: 'day-1',
  B: 'day-2',
  C: 'day-3',
  D: 'day-4',
  E: 'day-5',
  F: 'day-6',
}

/** The last day's table, which also holds the stations that were visited again. */
export const LAST_DAY_FILE = 'day-6/traverse-F.csv'

/** The file below `sample-area/scans` that holds a scan. */
export function fileOf(name: string, spot: Spot): string {
  if (spot.hole) return `core/${spot.hole}.${spot.hole === 'VDH01' ? 'csv' : 'txt'}`
  const folder = FOLDERS[spot.name[0]]
  if (spot.name[0] === 'F') return LAST_DAY_FILE
  if ('AB'.includes(spot.name[0])) return `${folder}/${name}.txt`
  return `${folder}/${spot.name}.${spot.name[0] === 'E' ? 'asc' : 'csv'}`
}

/** The text of a file from the scans in it, in order. */
export function fileText(scans: readonly MadeScan[]): string {
  const { spot } = scans[0]
  if (spot.hole) return spot.hole === 'VDH01' ? wideTable(scans, ',') : wideTable(scans, '\t')
  switch (spot.name[0]) {
    case 'A':
    case 'B':
      return twoColumns(scans[0])
    case 'C':
      return commaColumns(scans)
    case 'D':
      return decimalCommaColumns(scans)
    case 'E':
      return blankColumns(scans)
    default:
      return stationTable(scans)
  }
}

/** Header lines, then wavelength and reflectance by tab; day A knows times and no place. */
function twoColumns(scan: MadeScan): string {
  const timed = scan.spot.name[0] === 'A'
  const behind = timed ? CLOCK_BEHIND : 0
  const [longitude, latitude] = toDegrees(scan.spot.point)
  const place = timed
    ? []
    : [
        `sample: ${scan.spot.name}`,
        `name: ${scan.name}`,
        `latitude: ${latitude.toFixed(6)}`,
        `longitude: ${longitude.toFixed(6)}`,
        `elevation: ${scan.spot.height.toFixed(1)}`,
      ]
  const head = [
    'project: Velarca, invented scenario and data',
    ...place,
    `time: ${instant((scan.time ?? 0) - behind)}`,
    `white reference time: ${instant((scan.whiteTime ?? 0) - behind)}`,
    `support: ${scan.spot.support}`,
    `target: ${scan.spot.target}`,
    'wavelength nm\treflectance',
  ]
  return lines(head, (i) => `${WAVELENGTHS[i]}\t${scan.reflectance[i].toFixed(4)}`)
}

/** A station's scans side by side, by comma, under header lines. */
function commaColumns(scans: readonly MadeScan[]): string {
  const head = [
    `sample: ${scans[0].spot.name}`,
    `time: ${instant(scans[0].time ?? 0)}`,
    `white reference time: ${instant(scans[0].whiteTime ?? 0)}`,
    ['wavelength', ...scans.map(({ name }) => name)].join(','),
  ]
  return lines(head, (i) =>
    [WAVELENGTHS[i], ...scans.map((scan) => scan.reflectance[i].toFixed(4))].join(','),
  )
}

/** Per cent with a decimal comma, by semicolon. */
function decimalCommaColumns(scans: readonly MadeScan[]): string {
  const head = [
    `time: ${instant(scans[0].time ?? 0)}`,
    'unit: %',
    ['nm', ...scans.map(({ name }) => name)].join(';'),
  ]
  return lines(head, (i) =>
    [
      WAVELENGTHS[i],
      ...scans.map((scan) => (scan.reflectance[i] * 100).toFixed(2).replace('.', ',')),
    ].join(';'),
  )
}

/** Micrometres, from the longest down, in columns of blanks. */
function blankColumns(scans: readonly MadeScan[]): string {
  const head = [
    `sample = ${scans[0].spot.name}`,
    `time = ${instant(scans[0].time ?? 0)}`,
    ['micrometres', ...scans.map(({ name }) => name)].join(' '),
  ]
  const last = WAVELENGTHS.length - 1
  return lines(head, (i) =>
    [
      (WAVELENGTHS[last - i] / 1000).toFixed(3),
      ...scans.map((scan) => scan.reflectance[last - i].toFixed(4)),
    ].join(' '),
  )
}

/** A row a core interval: from and to in the first hole, the depth alone in the second. */
function wideTable(scans: readonly MadeScan[], separator: string): string {
  const interval = scans[0].spot.hole === 'VDH01'
  const depths = interval ? ['from', 'to'] : ['depth']
  const head = ['scan', 'hole', ...depths, ...WAVELENGTHS].join(separator)
  const rows = scans.map(({ name, spot, reflectance }) => {
    const [from, to] = [spot.from ?? 0, spot.to ?? 0]
    const values = Array.from(reflectance, (value) => value.toFixed(4))
    return [name, spot.hole, ...(interval ? [from, to] : [(from + to) / 2]), ...values].join(
      separator,
    )
  })
  return [head, ...rows].join('\n') + '\n'
}

/** A row a scan with its station, time and target before the channels. */
function stationTable(scans: readonly MadeScan[]): string {
  const head = ['scan', 'sample', 'time', 'target', ...WAVELENGTHS].join(',')
  const rows = scans.map(({ name, spot, time, reflectance }) => {
    const values = Array.from(reflectance, (value) => value.toFixed(4))
    return [name, spot.name, instant(time ?? 0), spot.target, ...values].join(',')
  })
  return [head, ...rows].join('\n') + '\n'
}

function lines(head: readonly string[], row: (channel: number) => string): string {
  const rows = Array.from(WAVELENGTHS, (_, i) => row(i))
  return [...head, ...rows].join('\n') + '\n'
}

/** ISO 8601 to the second, UTC. */
export function instant(seconds: number): string {
  return new Date(seconds * 1000).toISOString().replace('.000Z', 'Z')
}
