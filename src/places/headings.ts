/**
 * Which column of a table means what, by its heading.
 *
 * Headings are compared without case, accents, punctuation, units and names of coordinate systems,
 * against the words in common use in exploration (common practice, from memory): English, Spanish,
 * Portuguese, French, German, Italian, Russian and Chinese. A word that means something else in
 * another of these languages stands last or not at all; the Places step asks for what is not found.
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
    'sample|sample id|sampleid|sample no|sample number|sample name|sample code|sample ref|sampleref|sample reference|sample label|sample tag|sample nr|sampno|sampleno|samplenumber|samplename|samp id|samp no|sampid|specimen|specimen id|specimen no|muestra|id muestra|muestra id|no muestra|n muestra|muestra no|muestra n|nro muestra|num muestra|numero muestra|numero de muestra|codigo muestra|codigo de muestra|amostra|id amostra|amostra id|no amostra|n amostra|amostra no|amostra n|numero amostra|numero da amostra|codigo amostra|codigo da amostra|echantillon|id echantillon|echantillon id|no echantillon|n echantillon|numero echantillon|numero d echantillon|campione|id campione|campione id|probennummer|proben nr|probennr|proben id|probenname|probenbezeichnung|проба|номер пробы|образец|номер образца|样品|样品号|样品编号|样号|scan|scan name|scan id|spectrum|spectrum name|spectrum id|file|file name|filename|station|station id|stn|site|site id|point|point id|pointid|waypoint|name|nombre|nome|nom|id|field id|label|station no|station name|site name|site no|punto|ponto|estacion|estacao|codigo|probe',
  ),
  x: words(
    'easting|eastings|east|este|leste|est|ost|oost|ostwert|rechtswert|x coord|x coordinate|x coordinates|xcoord|xcoordinate|coord x|coordx|coordenada x|coordenada este|coordenada leste|coordenada e|coord este|coord leste|coord est|coord east|coord e|east coord|east coordinate|coordonnee x|coordinata x|x koordinate|koordinate x|coordinate x|point x|pos x|x pos|x position|x|utme|utmx|mid x|collar x|collar east|collar easting|восток|координата x|东坐标|横坐标|e',
  ),
  y: words(
    'northing|northings|north|norte|nord|noord|nordwert|hochwert|y coord|y coordinate|y coordinates|ycoord|ycoordinate|coord y|coordy|coordenada y|coordenada norte|coordenada n|coord norte|coord nord|coord north|coord n|north coord|north coordinate|coordonnee y|coordinata y|y koordinate|koordinate y|coordinate y|point y|pos y|y pos|y position|y|utmn|utmy|mid y|collar y|collar north|collar northing|север|координата y|北坐标|纵坐标|n',
  ),
  longitude: words(
    'longitude|long|lon|lng|longitud|longitudine|lange|laenge|geographische lange|долгота|经度|x longitude|longitude x|gpslongitude|long x|lon x|x lon|x long|longdd|londd',
  ),
  latitude: words(
    'latitude|lat|latitud|latitudine|breite|geographische breite|широта|纬度|latitude y|y latitude|gpslatitude|lat y|y lat|latdd',
  ),
  position: words(
    'position|coordinates|coordinate|coords|lat long|latlong|lat lon|latlon|lat lng|latitude longitude|mgrs|mgrs reference|grid reference|gridref|grid ref|gps|gps position|gps coordinates|coordenadas',
  ),
  z: words(
    'elevation|elev|rl|z|altitude|alt|height|cota|quota|altitud|altura|elevacion|elevacao|hohe|hoehe|высота|отметка|高程|z coord|z coordinate|coord z|coordz|coordenada z|zcoord|collar rl|collar z|mid z',
  ),
  error: words('position error|accuracy|horizontal accuracy|precision|xy error|eph|epe'),
  crs: words(
    'crs|srs|epsg|epsg code|coordinate system|coord system|coordinate reference system|spatial reference|projection|grid system',
  ),
  datum: words('datum|horizontal datum'),
  zone: words('zone|grid zone|zona|huso'),
  support: words(
    'support|sample type|sampletype|material|medium|sample medium|sample material|tipo muestra|tipo de muestra|tipo amostra|tipo de amostra|soporte|type echantillon|probenart',
  ),
  target: words('target|touched|probe target|scanned on'),
  hole: words(
    'hole|hole id|holeid|hole name|hole no|bhid|dhid|drillhole|drill hole|drillhole id|drill hole id|borehole|borehole id|hole number|holeno|borehole no|sondaje|id sondaje|taladro|barreno|pozo|furo|id furo|sondage|forage|sondaggio|bohrung|bohrloch|скважина|номер скважины|钻孔|孔号|collar id|well',
  ),
  from: words('from|depth from|from depth|from m|desde|mfrom|de|da|von|от|start depth|top'),
  to: words('to|depth to|to depth|to m|hasta|mto|ate|bis|до|end depth|bottom|base'),
  depth: words(
    'depth|hole depth|at depth|measured depth|md|downhole depth|survey depth|profundidad|profundidade|profondeur|profondita|tiefe|глубина|深度|distance|at|mid depth|depth mid',
  ),
  azimuth: words(
    'azimuth|azi|azim|azimut|azimute|az|rumbo|азимут|方位角|bearing|azimuth true|true azimuth|grid azimuth|azimuth grid',
  ),
  dip: words('dip|plunge|buzamiento|manteo|mergulho|pendage|immersione|einfallen|倾角'),
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
  return (
    heading
      // Compatibility forms: `Nº` is No, `ｘ` is x.
      .normalize('NFKD')
      .replace(/\p{M}/gu, '')
      .replace(/([\p{Ll}\d])(\p{Lu})/gu, '$1 $2')
      .toLowerCase()
      .replace(/[^\p{L}\p{N}]+/gu, ' ')
      .trim()
  )
}

/** The heading without units, systems, zones and codes. */
function coreHeading(heading: string): string {
  const kept = plainHeading(heading)
    // A zone with its letter, which were parted.
    .replace(/\b\d{1,2} [a-z]\b/g, ' ')
    .trim()
    .split(/ +/)
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
