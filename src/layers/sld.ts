/**
 * Styled Layer Descriptor 1.1 (OGC 05-078r4) with Symbology Encoding 1.1 (OGC 05-077r4): stations
 * by class, and surfaces by a ramp.
 */
import type { SymbolShape } from '../classes/rule'
import type { ClassSymbol, RampStop } from './legend'
import { xmlText } from './xml-text'

/** A mark that the standard names, turned and moved; its size and place in sizes of a symbol. */
interface Mark {
  readonly mark: string
  readonly turn?: number
  readonly size?: number
  readonly right?: number
  readonly down?: number
}

/** Well-known marks; shapes that the standard does not name are put together of ones that it does. */
const MARKS: Readonly<Record<SymbolShape, readonly Mark[]>> = {
  circle: [{ mark: 'circle' }],
  square: [{ mark: 'square' }],
  triangle: [{ mark: 'triangle' }],
  diamond: [{ mark: 'square', turn: 45 }],
  cross: [{ mark: 'cross' }],
  star: [{ mark: 'star' }],
  // Not among the standard's six; renderers that do not know it draw a square.
  hexagon: [{ mark: 'hexagon' }],
  'inverted triangle': [{ mark: 'triangle', turn: 180 }],
  'turned cross': [{ mark: 'x' }],
  'left triangle': [{ mark: 'triangle', turn: 270 }],
  'right triangle': [{ mark: 'triangle', turn: 90 }],
  // Parts stand evenly on both sides, so that it does not matter which way a reader counts up.
  hourglass: [-0.3, 0.3].map((down) => ({ mark: 'circle', size: 0.65, down })),
  'upright bar': [-0.3, 0.3].map((down) => ({ mark: 'square', size: 0.6, down })),
  'flat bar': [-0.3, 0.3].map((right) => ({ mark: 'square', size: 0.6, right })),
}
const SYMBOL_SIZE = 10
const INK = '#1F1B16'

/** The bytes of a style for `stations.geojson`. */
export function stationsSld(symbols: readonly ClassSymbol[]): Uint8Array {
  const rules = symbols.map(
    (symbol) => `<se:Rule>
<se:Name>${xmlText(symbol.class)}</se:Name>
<ogc:Filter><ogc:PropertyIsEqualTo><ogc:PropertyName>class</ogc:PropertyName><ogc:Literal>${xmlText(symbol.class)}</ogc:Literal></ogc:PropertyIsEqualTo></ogc:Filter>
${MARKS[symbol.symbol].map((mark) => `<se:PointSymbolizer>${graphic(symbol, mark)}</se:PointSymbolizer>`).join('')}
</se:Rule>`,
  )
  return styledLayer(
    'stations',
    `<se:FeatureTypeStyle>\n${rules.join('\n')}\n</se:FeatureTypeStyle>`,
  )
}

/** One part of a symbol. A symbol of several parts has no outline, for it would run between them. */
function graphic({ symbol, colour, hollow }: ClassSymbol, part: Mark): string {
  const { mark, turn = 0, size = 1, right = 0, down = 0 } = part
  const isWhole = MARKS[symbol].length === 1
  const fill = hollow ? '' : `<se:Fill>${parameter('fill', colour)}</se:Fill>`
  const line = parameter('stroke', hollow || !isWhole ? colour : INK)
  const stroke = `<se:Stroke>${line}${parameter('stroke-width', '1')}</se:Stroke>`
  const turned = turn === 0 ? '' : `<se:Rotation>${turn}</se:Rotation>`
  const moved = isWhole
    ? ''
    : `<se:Displacement><se:DisplacementX>${right * SYMBOL_SIZE}</se:DisplacementX><se:DisplacementY>${down * SYMBOL_SIZE}</se:DisplacementY></se:Displacement>`
  return `<se:Graphic><se:Mark><se:WellKnownName>${mark}</se:WellKnownName>${fill}${stroke}</se:Mark><se:Size>${size * SYMBOL_SIZE}</se:Size>${turned}${moved}</se:Graphic>`
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
