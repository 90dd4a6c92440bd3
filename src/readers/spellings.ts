/** The words under which files keep what the work needs, as `headingWords` gives them. */

/** For each field its spellings as `headingWords` gives them, the surest first. */
export const SPELLINGS = {
  name: 'name|scan name|scan|scan id|spectrum|spectrum name|spectrum id|measurement|measurement id|file name|filename|scan number|scan no|spectrum number',
  sample:
    'sample|sample id|sample name|sample number|sample no|sampleid|sampleno|station|station id|station name|site|site id|specimen|specimen id|id|point|point id|waypoint',
  dateTime:
    'time|datetime|date time|date and time|time and date|timestamp|time stamp|acquired|acquisition time|acquisition date time|scan time|measurement time|measured|measured at|recorded|collected|utc|utc time|gps time|gps utc|local time|time utc|time local|saved|created|spectrum saved|longdate',
  date: 'date|acquisition date|scan date|measurement date|date utc|gps date|day|utc date|local date|collection date',
  zone: 'time zone|timezone|utc offset|zone offset|gmt offset|tz',
  longitude:
    'longitude|lon|long|lng|gps longitude|gps lon|gps long|lon dd|long dd|x lon|longitude dd|longitude wgs84|wgs84 longitude|lon wgs84|longitude deg|lon deg',
  latitude:
    'latitude|lat|gps latitude|gps lat|lat dd|y lat|latitude dd|latitude wgs84|wgs84 latitude|lat wgs84|latitude deg|lat deg',
  longitudeSide:
    'longitude ref|lon ref|longitude hemisphere|gps longitude ref|ew|e w|east west|longitude direction',
  latitudeSide:
    'latitude ref|lat ref|latitude hemisphere|gps latitude ref|ns|n s|north south|latitude direction',
  easting:
    'easting|eastings|east|utm easting|utm east|utm e|utme|x|xcoord|x coord|x coordinate|e|utm x|east m|easting m|grid east|coord x|mga e|mga east',
  northing:
    'northing|northings|north|utm northing|utm north|utm n|utmn|y|ycoord|y coord|y coordinate|n|utm y|north m|northing m|grid north|coord y|mga n|mga north',
  elevation:
    'elevation|elev|altitude|alt|height|z|rl|gps altitude|gps elevation|gps alt|elevation m|altitude m|elev m|msl|z m',
  crs: 'crs|epsg|coordinate system|coordinate reference system|projection|datum|grid|srs|spatial reference',
  crsZone: 'utm zone|zone|grid zone|mga zone',
  accuracy:
    'accuracy|gps accuracy|horizontal accuracy|position error|gps error|hdop|epe|coordinate accuracy|position accuracy|precision',
  support: 'support|sample type|material|medium|sample medium|sample kind|station type|type',
  target: 'target|scan target|surface|surface type|spot type|scan of|measured on|scanned surface',
  operator:
    'operator|user|observer|geologist|analyst|measured by|recorded by|scanned by|collected by|by|owner|logger',
  probe: 'probe|foreoptic|fore optic|accessory|optic|attachment|foreoptics',
  spot: 'spot|spot size|spot diameter|aperture|spot mm|measurement spot',
  integration:
    'integration|integration time|integration ms|exposure|exposure time|int time|integration times|vnir integration time',
  whiteReference:
    'white reference|white reference time|white ref|white ref time|reference time|last white reference|white panel|panel time|white reference taken|time of white reference|last white ref|wr time|white reference at|last reference|white time|calibration time',
  battery:
    'battery|battery voltage|battery level|battery v|battery volts|battery percent|voltage|battery charge',
  temperature:
    'temperature|temp|ambient temperature|instrument temperature|detector temperature|air temperature|temp c|temperature c',
  comment: 'comment|comments|note|notes|remark|remarks|description|memo|field notes',
  hole: 'hole|hole id|holeid|bhid|dhid|drillhole|drill hole|drill hole id|drillhole id|borehole|borehole id|well|hole name|hole number|hole no|ddh',
  from: 'from|depth from|from m|from depth|start depth|depth start|from ft|top|depth top|depthfrom|mfrom',
  to: 'to|depth to|to m|to depth|end depth|depth end|to ft|bottom|base|depth bottom|depthto|mto',
  depth:
    'depth|depth m|hole depth|downhole depth|down hole depth|depth ft|measured depth|core depth|md|depth along hole',
} as const

export type Field = keyof typeof SPELLINGS

/**
 * The same in the languages that programs and hands commonly write besides: German, French, Spanish,
 * Portuguese, Italian and Chinese; from memory. A word that means another field in English is left
 * out, such as the German for sample, which is *probe*.
 */
export const ABROAD: Partial<Record<Field, string>> = {
  sample:
    'probennummer|probenname|proben id|probe nr|probennr|échantillon|nom de l échantillon|numéro d échantillon|muestra|id muestra|código de muestra|nombre de muestra|amostra|código da amostra|nome da amostra|campione|样品|样品编号|样品名称|样本|测点',
  dateTime:
    'uhrzeit|zeit|messzeit|zeitstempel|datum und uhrzeit|datum uhrzeit|heure|date et heure|hora|fecha y hora|fecha hora|data e hora|data hora|ora|data e ora|时间|测量时间|采集时间|日期时间',
  date: 'messdatum|aufnahmedatum|fecha|fecha de medición|data da medição|data di misura|date de mesure|日期|测量日期',
  zone: 'zeitzone|fuseau horaire|zona horaria|fuso horário|fuso orario|时区',
  longitude: 'längengrad|geogr länge|longitud|longitudine|经度',
  latitude: 'breitengrad|geogr breite|latitud|latitudine|纬度',
  easting: 'ost|ostwert|rechtswert|est|este|leste|coordenada este|utm este|utm leste|东坐标',
  northing: 'nord|nordwert|hochwert|norte|coordenada norte|utm norte|北坐标',
  elevation: 'höhe|meereshöhe|elevación|altitud|cota|elevação|quota|高程|海拔',
  crs: 'koordinatensystem|système de coordonnées|sistema de coordenadas|坐标系',
  accuracy: 'genauigkeit|précision|precisión|precisão|precisione|精度',
  operator:
    'bediener|bearbeiter|geologe|opérateur|opératrice|operador|operadora|operatore|geólogo|操作员|测量人',
  integration:
    'integrationszeit|temps d intégration|tiempo de integración|tempo de integração|tempo di integrazione|积分时间',
  whiteReference:
    'weißreferenz|weissreferenz|weißabgleich|weissabgleich|référence blanche|blanc de référence|referencia blanca|referência branca|riferimento bianco|白板时间|白参考',
  battery: 'batterie|akku|batería|bateria|batteria|电池',
  temperature: 'temperatur|température|temperatura|温度',
  comment:
    'kommentar|bemerkung|bemerkungen|commentaire|commentaires|remarque|remarques|comentario|comentarios|comentário|comentários|observaciones|observações|nota|notas|commento|备注|注释',
  hole: 'bohrung|bohrloch|sondage|sondaje|sondeo|pozo|furo|furo de sondagem|sondaggio|钻孔|孔号',
  from: 'von|desde|起始深度',
  to: 'bis|hasta|até|终止深度',
  depth: 'tiefe|profondeur|profundidad|profundidade|profondità|深度',
}
