/** What in the spot is not rock: plastic, paper, plants, ink, and light that is not the probe's. */
import { measureFeature, type WavelengthRange } from '../spectra/feature'
import { removeContinuum } from '../spectra/hull'
import { cropTo, resample } from '../spectra/resample'
import { smoothSpectrum } from '../spectra/smooth'
import { channelRange, type Spectrum } from '../spectra/spectrum'
import { reflectanceAt } from '../spectra/statistics'

/** Depths of bands that no rock has together. */
export interface ForeignBands {
  /**
   * The lesser depth of the C–H bands near 1730 and 1762 nm, 0 unless the one near 2310 nm is
   * there too (polyethylene and greases; Cloutis 1989, Science 245, 165: from memory).
   */
  readonly hydrocarbon: number
  /** Depth of chlorophyll's band near 675 nm, 0 unless the red edge follows it. */
  readonly chlorophyll: number
  /** Part of the light lost below a sharp edge between 650 and 760 nm, 0 if not level beyond. */
  readonly dye: number
  /** Depth of cellulose's broad band near 2100 nm, as far as its other bands are there too. */
  readonly cellulose: number
}

/**
 * Chlorophyll's red edge lies between 690 and 740 nm and reflectance is level beyond. Iron oxides
 * have a band near 670 nm too, but bend down again to theirs near 900 nm, or rise on. So the rise
 * in ln R over the edge must be this many times the change from 760 to 840 nm either way.
 */
const EDGE_OVER_PLATEAU = 2.5

/** Measures foreign bands. */
export function measureForeign(spectrum: Spectrum): ForeignBands {
  const infrared = smoothed(cropTo(spectrum, 1660, 2400))
  const visible = smoothed(cropTo(spectrum, 550, 860))
  return {
    hydrocarbon: hydrocarbonIn(infrared),
    chlorophyll: chlorophyllIn(visible),
    dye: dyeIn(smoothed(cropTo(spectrum, 600, 910), 11)),
    cellulose: celluloseIn(spectrum),
  }
}

/**
 * The dyes of blue, green and black markers absorb up to an edge in the red, some 50 nm wide, and
 * nothing beyond (general knowledge, from memory). Iron and copper minerals rise more slowly or
 * fall again towards 900 nm. The change beyond the edge, over these many nm from it, may be at
 * most this part of the rise.
 */
const BEYOND_THE_EDGE = [
  [80, 0.2],
  [130, 0.4],
] as const

/** Where the curve is looked at for an edge, nm: every 5 nm from 630 to 890. */
const DYE_GRID = Float64Array.from({ length: 53 }, (_, i) => 630 + 5 * i)

function dyeIn(spectrum: Spectrum): number {
  const logs = resample(spectrum, DYE_GRID).reflectance.map(Math.log)
  const logAt = (nm: number): number => logs[(nm - DYE_GRID[0]) / 5]
  let [edge, rise] = [0, 0]
  for (let nm = 650; nm <= 760; nm += 5) {
    const found = logAt(nm + 20) - logAt(nm - 20)
    if (found > rise) [edge, rise] = [nm, found]
  }
  const isLevel = BEYOND_THE_EDGE.every(
    ([far, part]) => Math.abs(logAt(edge + far) - logAt(edge + 40)) < part * rise,
  )
  return isLevel ? 1 - Math.exp(-rise) : 0
}

/**
 * Paper and wood are cellulose, which absorbs broadly near 1490, 2100 and 2335 nm (Curran 1989,
 * Remote Sensing of Environment 30, 271; Elvidge 1990, Int. J. Remote Sensing 11, 1775; both from
 * memory). Ammonium, zeolites, serpentine, gypsum, opal and alunite have one or two of the three.
 * Each band: its middle, the distance at which its shoulders are taken, and how far ln R of white
 * paper sags there for each unit of depth at 2100 nm.
 */
const CELLULOSE = [
  { nm: 1490, reach: 60, sag: 0.285 },
  { nm: 2095, reach: 40, sag: 0.26 },
  { nm: 2335, reach: 40, sag: 0.36 },
] as const
/** Channels over which a band is smoothed. */
const CELLULOSE_CHANNELS = 15

/** A band on a flank that falls by this many times its sag is the flank's own bend. */
const STEEP = 8

/** The depth at 2100 nm that the least of the three bands speaks for. */
function celluloseIn(spectrum: Spectrum): number {
  const depths = CELLULOSE.map(({ nm, reach, sag }) => {
    const part = smoothed(cropTo(spectrum, nm - reach - 25, nm + reach + 25), CELLULOSE_CHANNELS)
    const [left, middle, right] = [nm - reach, nm, nm + reach].map((at) =>
      Math.log(reflectanceAt(part, at) ?? NaN),
    )
    const sags = (left + right) / 2 - middle
    return Math.abs(right - left) < STEEP * sags ? sags / sag : 0
  })
  return Math.min(...depths)
}

function hydrocarbonIn(spectrum: Spectrum): number {
  const first = depthIn(spectrum, [1718, 1738], [1670, 1746])
  const second = depthIn(spectrum, [1754, 1772], [1744, 1795])
  const combination = depthIn(spectrum, [2302, 2318], [2270, 2332])
  return combination > 0.3 * first ? Math.min(first, 3 * second) : 0
}

function chlorophyllIn(spectrum: Spectrum): number {
  const rise = (from: number, to: number): number =>
    Math.log((reflectanceAt(spectrum, to) ?? NaN) / (reflectanceAt(spectrum, from) ?? NaN))
  const isEdge = rise(690, 740) > EDGE_OVER_PLATEAU * Math.abs(rise(760, 840))
  return isEdge ? deepest(spectrum, [662, 702], [600, 760]) : 0
}

function smoothed(spectrum: Spectrum, channels = 7): Spectrum {
  const { wavelengths: x } = spectrum
  return x.length > 2 && (x[x.length - 1] - x[0]) / (x.length - 1) < 2.5
    ? smoothSpectrum(spectrum, channels, 2)
    : spectrum
}

/** Depth at the lowest channel of a range that lies inside it, gaps passed over. */
function deepest(spectrum: Spectrum, search: WavelengthRange, hull: WavelengthRange): number {
  const part = removeContinuum(spectrum, ...hull)
  if (part === null) return 0
  const [start, end] = channelRange(part.wavelengths, ...search)
  let lowest = start
  for (let i = start + 1; i < end; i++) if (part.removed[i] < part.removed[lowest]) lowest = i
  return lowest === start || lowest >= end - 1 ? 0 : 1 - part.removed[lowest]
}

function depthIn(spectrum: Spectrum, search: WavelengthRange, hull: WavelengthRange): number {
  const result = measureFeature(spectrum, search, hull)
  return 'missing' in result ? 0 : result.depth
}
