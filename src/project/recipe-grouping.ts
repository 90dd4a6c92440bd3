/** What a recipe says of how scans are grouped into stations. */
import { GROUPING_BOUNDS, groupingFault, type GroupingChoice } from '../places/grouping'
import { RecipeError, type Cursor } from './json-cursor'

/**
 * The recipe's `grouping`.
 *
 * @throws RecipeError with its place
 */
export function readGrouping(grouping: Cursor): GroupingChoice {
  grouping.allow(['by_time', ...Object.keys(GROUPING_BOUNDS)])
  const byTime = grouping.optional('by_time')?.truth()
  const limits = Object.entries(GROUPING_BOUNDS).flatMap(([name, [low, high]]) => {
    const value = grouping.optional(name)?.between(low, high)
    return value === undefined ? [] : [[name, value] as const]
  })
  const choice: GroupingChoice = {
    ...(byTime === undefined ? {} : { by_time: byTime }),
    ...Object.fromEntries(limits),
  }
  const fault = groupingFault(choice)
  if (fault !== null) throw new RecipeError(grouping.path, fault)
  return choice
}
