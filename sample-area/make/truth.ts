/** The truth behind the scans, for tests to score against. */
import { referenceOf, type EndMember } from './references'
import { absorptionShares } from './absorption'
import { micaPosition, ZONES, zoneAt } from './geology'
import { INGREDIENTS, meanMica, type Ingredient, type Mixture } from './mixture'
import { frameOver, sampleFrame, writeRaster } from './rasters'
import { WAVELENGTHS, type FaultName, type MadeScan } from './sampling'

/** Faults that a check should find; the others are matters of placing. */
const SPOILING: readonly FaultName[] = [
  'stale white reference',
  'detector step',
  'wet sample',
  'panel',
  'duplicate',
]

/** Names that one solid-solution series goes by; any of them is right. */
const SERIES: readonly (readonly string[])[] = [
  ['muscovite', 'illite', 'paragonite'],
  ['clinochlore', 'chamosite'],
]

/** White mica by mass from which the truth's grid has a position. */
const LEAST_MICA = 0.05

/** A reference that stands for an ingredient's name and group. */
function memberOf(ingredient: Exclude<Ingredient, 'host'>): EndMember {
  if (ingredient === 'white mica') return 'short muscovite'
  return ingredient === 'alunite' ? 'potassic alunite' : ingredient
}

/** `truth/scans.csv`: a row a scan. */
export function scanTruth(scans: readonly MadeScan[]): string {
  const head = [
    'scan,file,station,support,target,hole,from,to,easting,northing,elevation,zone,sound,faults',
    'main,accepted,group,absorption_share,white_mica_position,sodic',
    ...INGREDIENTS,
  ].join(',')
  return csv([head, ...scans.map(truthRow)])
}

function truthRow(scan: MadeScan): string {
  const { spot, mixture, faults } = scan
  const sound = !faults.some(({ fault }) => SPOILING.includes(fault))
  return [
    scan.name,
    scan.file,
    spot.name,
    spot.support,
    spot.target,
    spot.hole ?? '',
    spot.from ?? '',
    spot.to ?? '',
    spot.point.x.toFixed(1),
    spot.point.y.toFixed(1),
    spot.height.toFixed(1),
    mixture.zone,
    sound ? 'yes' : 'no',
    faults.map(({ fault }) => fault).join(';'),
    ...mainOf(mixture),
    mixture.micaPosition?.toFixed(2) ?? '',
    mixture.sodic?.toFixed(3) ?? '',
    ...INGREDIENTS.map((name) => (mixture.parts[name] ?? 0).toFixed(4)),
  ].join(',')
}

/** The main mineral, the names that are right, its group, and its part of the absorption. */
function mainOf(mixture: Mixture): [string, string, string, string] {
  const [main] = absorptionShares(mixture, WAVELENGTHS)
  if (!main || main.ingredient === 'host')
    return ['nothing diagnostic', 'nothing diagnostic', '', '']
  const { mineral, group } = referenceOf(memberOf(main.ingredient))
  const accepted = SERIES.find((names) => names.includes(mineral)) ?? [mineral]
  return [mineral, accepted.join(';'), group, main.share.toFixed(3)]
}

/** `truth/faults.csv`: a row for each fault put in on purpose. */
export function faultTruth(scans: readonly MadeScan[]): string {
  const rows = scans.flatMap(({ name, file, faults }) =>
    faults.map(({ fault, size, detail }) =>
      [name, file, fault, Number(size.toFixed(3)), `"${detail}"`].join(','),
    ),
  )
  return csv(['scan,file,fault,size,detail', ...rows])
}

function csv(rows: readonly string[]): string {
  return rows.join('\n') + '\n'
}

/** `truth/white-mica.tif`: the true Al–OH position, nm, NaN where there is no white mica. */
export function micaGrid(): Uint8Array {
  const frame = frameOver(0, 20)
  const values = sampleFrame(frame, (point) =>
    meanMica(point) >= LEAST_MICA ? micaPosition(point) : NaN,
  )
  return writeRaster(frame, values, 'float', 'nan')
}

/** `truth/zones.tif`: the zone's place in `truth/zones.csv`, from 1. */
export function zoneGrid(): Uint8Array {
  const frame = frameOver(0, 20)
  const values = sampleFrame(frame, (point) => ZONES.indexOf(zoneAt(point)) + 1)
  return writeRaster(frame, values, 'byte', '0')
}

/** `truth/zones.csv`: the codes of `zones.tif`. */
export function zoneCodes(): string {
  return csv(['code,zone', ...ZONES.map((zone, i) => `${i + 1},${zone}`)])
}
