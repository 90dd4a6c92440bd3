/** Which column of a table is what, by its headings and the recipe, and what is not found. */
import type { Table } from '../readers/input'
import { findRoles, type Role, type Roles } from './headings'
import { exactName, nearestNames } from './names'
import { baseName } from './rules'
import type { PlaceRule } from './station'
import type { Troubles } from './troubles'

/** What a table speaks of: samples (or intervals of holes), collars, or surveys of holes. */
export type TableKind = 'samples' | 'collars' | 'surveys'

/** What a recipe's entry can name a column for. */
export const RULE_COLUMNS = [
  'name',
  'x',
  'y',
  'position',
  'z',
  'hole',
  'from',
  'to',
  'depth',
  'support',
  'target',
  'azimuth',
  'dip',
] as const
export type RuleColumn = (typeof RULE_COLUMNS)[number]

/** A column that a table lacks; `place` where there are neither coordinates nor a hole's depth. */
export type MissingColumn =
  'name' | 'place' | 'x' | 'y' | 'longitude' | 'latitude' | 'depth' | 'azimuth' | 'dip'

/** What is said of each after “no”. */
export const COLUMN_WORDS: Readonly<Record<MissingColumn, string>> = {
  name: 'column of sample names',
  place: 'pair of columns of coordinates',
  x: 'column of eastings',
  y: 'column of northings',
  longitude: 'column of longitudes',
  latitude: 'column of latitudes',
  depth: 'column of depths',
  azimuth: 'column of azimuths',
  dip: 'column of dips',
}

/** The most signs of a heading that are said again in a message, and the most headings. */
const LONGEST_SAID = 40
const MOST_SAID = 12

/** The columns by heading, those that the rule names put first; an empty heading means none. */
export function rolesWithRule(table: Table, rule: PlaceRule | null, troubles: Troubles): Roles {
  const found = findRoles(table.header)
  const roles: Partial<Record<Role, number>> = { ...found }
  delete roles.time
  for (const role of RULE_COLUMNS) {
    const heading = rule?.[role]
    if (heading === undefined) continue
    if (heading === '') {
      dropRole(roles, role)
      continue
    }
    const column = columnOf(table.header, heading)
    if (column < 0) {
      troubles.add(
        'column',
        1,
        `the recipe names the column “${heading}”, which ${baseName(table.file)} does not have; it has ${saidHeadings(table.header)}`,
        'went by the headings; correct the recipe’s places',
      )
      continue
    }
    // In a table of holes the hole's column is its name, unless the rule speaks of the hole.
    if (role === 'name' && column === roles.hole && rule?.hole === undefined) continue
    if ((role === 'x' || role === 'y') && namesDegrees(table, rule, found)) continue
    takeRole(roles, role, column)
  }
  return roles
}

/** Whether a rule names for x and y the columns whose headings say degrees, which they stay. */
function namesDegrees(table: Table, rule: PlaceRule | null, found: Roles): boolean {
  const is = (heading: string | undefined, column: number | undefined) =>
    column !== undefined && (heading === undefined || columnOf(table.header, heading) === column)
  return is(rule?.x, found.longitude) && is(rule?.y, found.latitude)
}

function takeRole(roles: Partial<Record<Role, number>>, role: RuleColumn, column: number): void {
  for (const other of Object.keys(roles) as Role[]) if (roles[other] === column) delete roles[other]
  dropRole(roles, role)
  // A whole position in one column stands in place of a pair.
  if (role === 'position') dropRole(roles, 'x')
  if (role === 'position') dropRole(roles, 'y')
  roles[role] = column
}

/** Takes a role away, and those that would stand in for it. */
function dropRole(roles: Partial<Record<Role, number>>, role: RuleColumn): void {
  delete roles[role]
  if (role === 'dip') delete roles.inclination
  if (role === 'x' || role === 'y') {
    delete roles.longitude
    delete roles.latitude
    delete roles.position
  }
}

/**
 * A misspelt heading of support or target would silently leave every row at its usual word, and
 * float would be mapped as outcrop.
 */
export function tellMisspelt(header: readonly string[], roles: Roles, troubles: Troubles): void {
  for (const role of ['support', 'target'] as const) {
    if (roles[role] !== undefined) continue
    const free = header.filter((_, column) => !Object.values(roles).includes(column))
    const [near] = nearestNames(role, free)
    if (near === undefined) continue
    troubles.add(
      'heading',
      1,
      `the heading “${near}” is close to “${role}” but is not it`,
      `its cells were not taken for the ${role}; correct the heading, or name it under places in the recipe`,
    )
  }
}

/** The number of the column with a heading, case aside where none fits as it stands; −1 for none. */
function columnOf(header: readonly string[], heading: string): number {
  const exact = header.findIndex((own) => exactName(own) === exactName(heading))
  if (exact >= 0) return exact
  return header.findIndex(
    (own) => exactName(own).toLowerCase() === exactName(heading).toLowerCase(),
  )
}

/** What a table speaks of, by the columns that it has. */
export function kindOf(roles: Roles): TableKind {
  const has = (role: Role) => roles[role] !== undefined
  if (!has('hole') || has('name') || has('from')) return 'samples'
  if (hasSpot(roles)) return 'collars'
  return has('depth') && has('azimuth') && (has('dip') || has('inclination'))
    ? 'surveys'
    : 'samples'
}

function hasSpot(roles: Roles): boolean {
  const has = (role: Role) => roles[role] !== undefined
  return (has('x') && has('y')) || (has('longitude') && has('latitude')) || has('position')
}

/**
 * The columns that a table's rows cannot do without and that were not found. `place` is no fault
 * where another table gives the samples their place.
 */
export function missingColumns(kind: TableKind, roles: Roles): MissingColumn[] {
  if (kind !== 'samples') return []
  const has = (role: Role) => roles[role] !== undefined
  const spot = hasSpot(roles)
  const missing: MissingColumn[] = has('name') || has('hole') ? [] : ['name']
  if (!spot) missing.push(...halfPair(roles))
  if (spot || missing.some((column) => column !== 'name')) return missing
  if (!has('hole')) return [...missing, 'place']
  const isDip = has('dip') || has('inclination')
  if (!has('from') && !has('to') && !has('depth')) missing.push('depth')
  else if (!has('name') && !has('from') && has('azimuth') !== isDip)
    missing.push(isDip ? 'azimuth' : 'dip')
  return missing
}

function halfPair(roles: Roles): MissingColumn[] {
  const pairs = [['x', 'y'] as const, ['longitude', 'latitude'] as const]
  return pairs.flatMap(([east, north]): MissingColumn[] => {
    const [hasEast, hasNorth] = [roles[east] !== undefined, roles[north] !== undefined]
    return hasEast === hasNorth ? [] : [hasEast ? north : east]
  })
}

/** A table's headings for a message: the first twelve, long ones cut. */
export function saidHeadings(header: readonly string[]): string {
  const said = header.slice(0, MOST_SAID).map(saidHeading).join(', ')
  return header.length > MOST_SAID ? `${said} and ${header.length - MOST_SAID} more` : said
}

/** A heading for a message, cut where it is long. */
export function saidHeading(heading: string): string {
  return heading.length > LONGEST_SAID ? `${heading.slice(0, LONGEST_SAID)}…` : heading
}
