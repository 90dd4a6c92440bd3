/** The varieties of one scan's minerals, with what speaks of each. */
import type { Measured } from '../../indices/rule'
import { varietiesOf, type Variety } from '../../indices/varieties'
import type { Identification, MineralShare } from '../../minerals/reference'
import type { ScanVarieties } from '../../project/varieties'

export interface NamedVarieties {
  readonly named: MineralShare
  readonly values: readonly { readonly variety: Variety; readonly measured: Measured }[]
}

/** Minerals of a scan of which an index speaks, in the scan's order, the main index first. */
export function varietiesIn(
  { minerals }: Identification,
  values: ScanVarieties | undefined,
): NamedVarieties[] {
  return minerals.flatMap((named) => {
    const told = varietiesOf(named.group).flatMap((variety) => {
      const measured = values?.get(variety.preset.id)
      return measured ? [{ variety, measured }] : []
    })
    return told.length > 0 ? [{ named, values: told }] : []
  })
}
