/** A round length on the map for its scale bar. */
import type { Map } from 'maplibre-gl'

export interface Bar {
  readonly metres: number
  /** CSS px. */
  readonly width: number
}

/** The longest of 1, 2 or 5 times a power of ten that is no wider than `most` px at the map's centre. */
export function scaleBar(map: Map, most: number): Bar {
  const { clientWidth, clientHeight } = map.getContainer()
  const middle = clientHeight / 2
  const left = map.unproject([clientWidth / 2 - most / 2, middle])
  const right = map.unproject([clientWidth / 2 + most / 2, middle])
  const metres = left.distanceTo(right)
  const power = 10 ** Math.floor(Math.log10(metres))
  const round = ([5, 2, 1].find((part) => part * power <= metres) ?? 1) * power
  return { metres: round, width: (most * round) / metres }
}
