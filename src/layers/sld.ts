/**
 * Styled Layer Descriptor 1.1 (OGC 05-078r4) with Symbology Encoding 1.1 (OGC 05-077r4): stations
 * by class, and surfaces by a ramp.
 */
import type { SymbolShape } from '../classes/rule'
import type { ClassSymbol, RampStop } from './legend'
import { xmlText } from './xml-text'

/** Well-known marks; shapes that the standard does not name are turned ones that it does. */
const MARKS: Readonly<Record<SymbolShape, readonly [mark: string, rotation: number]>> = {
  circle: ['circle', 0],
  square: ['square', 0],
  triangle: ['triangle', 0],
  diamond: ['square', 45],
  cross: ['cross', 0],
  star: ['star', 0],
  // Not among the standard's six; renderers that do not know it draw a square.
  hexagon: ['hexagon', 0],
  'inverted triangle': ['triangle', 180],
}
const SYMBOL_SIZE = 10
const INK = '#1F1B16'

/** The bytes of a style for `stations.geojson`. */
export function stationsSld(symbols: readonly ClassSymbol[]): Uint8Array {
  const rules = symbols.map(
    (symbol) => `<se:Rule>
<se:Name>${xmlText(symbol.class)}</se:Name>
<ogc:Filter><ogc:PropertyIsEqualTo><ogc:PropertyName>class</ogc:PropertyName><ogc:Literal>${xmlText(symbol.class)}</ogc:Literal></ogc:PropertyIsEqualTo></ogc:Filter>
<se:PointSymbolizer>${graphic(symbol)}</se:PointSymbolizer>
</se:Rule>`,
  )
  return styledLayer(
    'stations',
    `<se:FeatureTypeStyle>\n${rules.join('\n')}\n</se:FeatureTypeStyle>`,
  )
}

function graphic({ symbol, colour, hollow }: ClassSymbol): string {
  const [mark, rotation] = MARKS[symbol]
  const fill = hollow ? '' : `<se:Fill>${parameter('fill', colour)}</se:Fill>`
  const line = parameter('stroke', hollow ? colour : INK) + parameter('stroke-width', '1')
  const turn = rotation === 0 ? '' : `<se:Rotation>${rotation}</se:Rotation>`
  return `<se:Graphic><se:Mark><se:WellKnownName>${mark}</se:WellKnownName>${fill}<se:Stroke>${line}</se:Stroke></se:Mark><se:Size>${SYMBOL_SIZE}</se:Size>${turn}</se:Graphic>`
}

function parameter(name: string, value: string): string {
  return `<se:SvgParameter name="${name}">${xmlText(value)}</se:SvgParameter>`
}

/**
 * The bytes of a style for band 1 of `NAME.tif`. It stands in a FeatureTypeStyle, as the schema
 * allows: common readers look for rasters there and not in a CoverageStyle.
 *
 * @param stops ascending; at least one
 */
export function surfaceSld(name: string, stops: readonly RampStop[]): Uint8Array {
  const points = stops.map(
    ([value, colour]) =>
      `<se:InterpolationPoint><se:Data>${value}</se:Data><se:Value>${colour}</se:Value></se:InterpolationPoint>`,
  )
  return styledLayer(
    name,
    `<se:FeatureTypeStyle>
<se:Rule>
<se:RasterSymbolizer>
<se:ChannelSelection><se:GrayChannel><se:SourceChannelName>1</se:SourceChannelName></se:GrayChannel></se:ChannelSelection>
<se:ColorMap><se:Interpolate fallbackValue="#000000" mode="linear" method="color">
<se:LookupValue>Rasterdata</se:LookupValue>
${points.join('\n')}
</se:Interpolate></se:ColorMap>
</se:RasterSymbolizer>
</se:Rule>
</se:FeatureTypeStyle>`,
  )
}

/**
 * The bytes of a style for band 1 of a surface of the likeliest class: a colour a number, by the
 * standard's Categorize, whose steps lie half way between numbers.
 *
 * @param colours by number, from 0 up
 */
export function classesSld(name: string, colours: readonly string[]): Uint8Array {
  const steps = colours
    .slice(1)
    .map((colour, at) => `<se:Threshold>${at + 0.5}</se:Threshold>\n<se:Value>${colour}</se:Value>`)
  return styledLayer(
    name,
    `<se:FeatureTypeStyle>
<se:Rule>
<se:RasterSymbolizer>
<se:ChannelSelection><se:GrayChannel><se:SourceChannelName>1</se:SourceChannelName></se:GrayChannel></se:ChannelSelection>
<se:ColorMap><se:Categorize fallbackValue="#000000" thresholdsBelongTo="succeeding">
<se:LookupValue>Rasterdata</se:LookupValue>
<se:Value>${colours[0]}</se:Value>
${steps.join('\n')}
</se:Categorize></se:ColorMap>
</se:RasterSymbolizer>
</se:Rule>
</se:FeatureTypeStyle>`,
  )
}

function styledLayer(layer: string, style: string): Uint8Array {
  return new TextEncoder().encode(`<?xml version="1.0" encoding="UTF-8"?>
<StyledLayerDescriptor version="1.1.0" xmlns="http://www.opengis.net/sld" xmlns:se="http://www.opengis.net/se" xmlns:ogc="http://www.opengis.net/ogc">
<NamedLayer>
<se:Name>${xmlText(layer)}</se:Name>
<UserStyle>
<se:Name>${xmlText(layer)}</se:Name>
${style}
</UserStyle>
</NamedLayer>
</StyledLayerDescriptor>
`)
}
