/** Scans of one sample against each other: what one scan alone cannot tell. */
import type { CheckLimits } from './limits'
import type { ScanMeasures } from './measure-scan'
import type { Reason } from './verdict'

/** A scan with what its file says it is of. */
export interface ReplicateScan {
  readonly name: string
  /** The sample's name; null where the file does not tell. */
  readonly sample: string | null
  /** What the probe touched, as written; only scans of one target are compared. */
  readonly target: string | null
  readonly measures: Pick<ScanMeasures, 'noise' | 'water1940'>
}

/** A scan is compared with so many of the driest of its sample. */
const COMPARED = 3
/** Free water moves the 1940 nm absorption of a hydrous mineral at least so far, nm. */
const MOVED = 2
/** A wetted surface is at least this much darker at 1650 nm, of the drier scan's reflectance. */
const DARKER = 0.03

/**
 * For each scan the reason to take it for wet beside a drier scan of its sample and target, or
 * null: its 1940 nm absorption is stronger by the limit of free water and lies longer, for free
 * water absorbs at 1930–1945 nm and water in minerals mostly at 1905–1925, and it is darker at
 * 1650 nm. So a smectite's own water does not hide free water where one scan is drier.
 */
export function wetterReasons(
  scans: readonly ReplicateScan[],
  limits: CheckLimits,
): (Reason | null)[] {
  const driest = new Map<string, ReplicateScan[]>()
  for (const scan of scans) {
    const key = keyOf(scan)
    if (key === null) continue
    const kept = driest.get(key) ?? []
    kept.push(scan)
    kept.sort((a, b) => strengthOf(a) - strengthOf(b)).splice(COMPARED)
    driest.set(key, kept)
  }
  return scans.map((scan) => {
    const key = keyOf(scan)
    const others = key === null ? [] : (driest.get(key) ?? [])
    const drier = others.find((other) => isWetter(scan, other, limits))
    return drier ? reasonAgainst(scan, drier, limits) : null
  })
}

function isWetter(scan: ReplicateScan, drier: ReplicateScan, limits: CheckLimits): boolean {
  const [band, base] = [scan.measures.water1940, drier.measures.water1940]
  if (band === null || strengthOf(scan) - strengthOf(drier) < limits.freeWater) return false
  const isMoved = base === null || base.strength < 0.05 || band.position - base.position > MOVED
  const [bright, dark] = [levelOf(drier), levelOf(scan)]
  return isMoved && bright !== null && dark !== null && dark < (1 - DARKER) * bright
}

function reasonAgainst(scan: ReplicateScan, drier: ReplicateScan, limits: CheckLimits): Reason {
  const measure = strengthOf(scan) - strengthOf(drier)
  const words = `Absorbs ${measure.toFixed(2)} more at 1940 nm than ${drier.name} of the same sample, and is darker: it was wet; dry it and scan again.`
  return { reason: 'wet sample', measure, limit: limits.freeWater, unit: 'absorbance', words }
}

function keyOf({ sample, target }: ReplicateScan): string | null {
  return sample === null ? null : JSON.stringify([sample, target])
}

function strengthOf({ measures }: ReplicateScan): number {
  return measures.water1940?.strength ?? 0
}

/** Reflectance near 1650 nm, where neither clay nor water absorbs much. */
function levelOf({ measures }: ReplicateScan): number | null {
  return measures.noise.find(({ at }) => at === 1650)?.level ?? null
}
