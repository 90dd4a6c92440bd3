/**
 * Which column of a table means what, by its heading.
 *
 * Headings are compared without case, accents, punctuation, units and names of coordinate systems,
 * against the words in common use in exploration (common practice, no source): English, Spanish,
 * Portuguese and French.
 */

export type Role =
  | 'name'
  | 'x'
  | 'y'
  | 'longitude'
  | 'latitude'
  | 'position'
  | 'z'
  | 'error'
  | 'crs'
  | 'datum'
  | 'zone'
  | 'support'
  | 'target'
  | 'hole'
  | 'from'
  | 'to'
  | 'depth'
  | 'azimuth'
  | 'dip'
  | 'inclination'
  | 'time'

/** The index of each role's column; a role that no heading speaks of is absent. */
export type Roles = Readonly<Partial<Record<Role, number>>>

/** The words for each role, the surest first: the earliest word wins over a column further left. */
const WORDS: Readonly<Record<Role, readonly string[]>> = {
  name: words(
    'sample|sample id|sampleid|sample no|sample number|sample name|sample code|samp id|sampid|specimen|specimen id|muestra|id muestra|no muestra|amostra|echantillon|scan|scan name|scan id|spectrum|spectrum name|spectrum id|file|file name|filename|station|station id|stn|site|site id|point|point id|pointid|waypoint|name|nombre|nome|nom|id|field id|label',
  ),
  x: words(
    'easting|eastings|east|este|leste|est|x coord|x coordinate|xcoord|coord x|point x|pos x|x|mid x|collar x|collar east|collar easting|e',
  ),
  y: words(
    'northing|northings|north|norte|nord|y coord|y coordinate|ycoord|coord y|point y|pos y|y|mid y|collar y|collar north|collar northing|n',
  ),
  longitude: words('longitude|long|lon|lng|longitud|x longitude|longitude x|gpslongitude'),
  latitude: words('latitude|lat|latitud|latitude y|y latitude|gpslatitude'),
  position: words(
    'position|coordinates|coordinate|coords|lat long|latlong|lat lon|latlon|lat lng|latitude longitude|mgrs|mgrs reference|grid reference|gridref|grid ref|coordenadas',
  ),
  z: words(
    'elevation|elev|rl|z|altitude|alt|height|cota|altitud|z coord|zcoord|collar rl|collar z|mid z',
  ),
  error: words('position error|accuracy|horizontal accuracy|precision|xy error|eph|epe'),
  crs: words(
    'crs|srs|epsg|epsg code|coordinate system|coord system|coordinate reference system|spatial reference|projection|grid system',
  ),
  datum: words('datum|horizontal datum'),
  zone: words('zone|grid zone|zona|huso'),
  support: words('support|sample type|sampletype|material|medium|sample medium|sample material'),
  target: words('target|touched|probe target|scanned on'),
  hole: words(
    'hole|hole id|holeid|hole name|hole no|bhid|dhid|drillhole|drill hole|drillhole id|drill hole id|borehole|borehole id|sondaje|pozo|furo|sondage|collar id|well',
  ),
  from: words('from|depth from|from depth|desde|mfrom|de|start depth|top'),
  to: words('to|depth to|to depth|hasta|mto|ate|end depth|bottom|base'),
  depth: words(
    'depth|hole depth|at depth|measured depth|md|downhole depth|survey depth|profundidad|profundidade|profondeur|distance|at|mid depth|depth mid',
  ),
  azimuth: words(
    'azimuth|azi|azim|azimut|az|bearing|azimuth true|true azimuth|grid azimuth|azimuth grid',
  ),
  dip: words('dip|plunge|buzamiento|mergulho|pendage'),
  inclination: words('inclination|incl|inc|zenith|drift|inclinacion|inclinacao'),
  time: words(
    'time|date time|datetime|timestamp|acquired|acquisition time|acquisition date|scan time|scan date|measured|measured at|date|utc|utc time|gps time|created|spectrum saved|fecha|hora|fecha hora',
  ),
}

/** Words that qualify a heading without changing its meaning. */
const QUALIFIERS = new Set(
  words(
    'm|metre|metres|meter|meters|ft|feet|foot|km|deg|degree|degrees|dd|decimal|dec|wgs|wgs84|84|utm|gps|mga|mga94|mga2020|amg|gda|gda94|gda2020|nad|nad27|nad83|sirgas|sirgas2000|psad56|etrs89|epsg|grid|local|m e|m n|masl|asl|amsl|dms|dm|orig|nat|native',
  ),
)

function words(list: string): readonly string[] {
  return list.split('|')
}

/** A heading in plain letters and digits, words apart, lower case: `Este_[m]` → `este m`. */
function plainHeading(heading: string): string {
  return heading
    .normalize('NFD')
    .replace(/\p{M}/gu, '')
    .replace(/([\p{Ll}\d])(\p{Lu})/gu, '$1 $2')
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, ' ')
    .trim()
}

/** The heading without units, systems, zones and codes. */
function coreHeading(heading: string): string {
  const kept = plainHeading(heading)
    .split(' ')
    .filter((word) => !QUALIFIERS.has(word) && !/^\d+[a-z]?$/.test(word))
  return kept.join(' ')
}

/**
 * The roles of a table's columns.
 *
 * @param headings as written
 * @param wanted only these roles; all by default
 */
export function findRoles(
  headings: readonly string[],
  wanted: readonly Role[] = Object.keys(WORDS) as Role[],
): Roles {
  const columns = new Map<string, number>()
  headings.forEach((heading, column) => {
    for (const form of [plainHeading(heading), squeezed(heading), coreHeading(heading)]) {
      if (form !== '' && !columns.has(form)) columns.set(form, column)
    }
  })
  const roles: Partial<Record<Role, number>> = {}
  for (const role of wanted) {
    const word = WORDS[role].find((candidate) => columns.has(candidate))
    if (word !== undefined) roles[role] = columns.get(word)
  }
  return loneLettersDropped(roles, headings)
}

/** `EASTING` in one word even where case changes inside it (`EastIng`). */
function squeezed(heading: string): string {
  return plainHeading(heading.toLowerCase())
}

/** `e` and `n` mean easting and northing only together. */
function loneLettersDropped(
  roles: Partial<Record<Role, number>>,
  headings: readonly string[],
): Roles {
  const letter = (role: 'x' | 'y') => {
    const column = roles[role]
    return column !== undefined && /^[en]$/.test(coreHeading(headings[column]))
  }
  if (letter('x') && roles.y === undefined) delete roles.x
  if (letter('y') && roles.x === undefined) delete roles.y
  return roles
}

/** Metres in a length of a column whose heading may name feet or kilometres. */
export function metresOf(heading: string): number {
  const plain = plainHeading(heading).split(' ')
  if (plain.some((word) => /^(ft|feet|foot)$/.test(word))) return 0.3048
  return plain.includes('km') ? 1000 : 1
}
