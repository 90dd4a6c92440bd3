/** A planned walk, and where one begins and ends, as the map draws them. */
import type { Feature, FeatureCollection, LineString, Point } from 'geojson'
import type { MapFrame } from '../../jobs/map-frame'
import type { EndProperties, StopProperties, WalkOnMap } from '../../map/walk-layer'
import type { TraverseEnd, TraverseRule } from '../../project/recipe-traverse'
import type { TraversePlan } from '../../project/traverse-plan'

/**
 * The way leg by leg, each between the exact places of its stops, and the stops.
 *
 * @param chosen the stop that is looked at, counted from 0; null for none
 */
export function walkPoints(
  plan: TraversePlan | null,
  ends: Partial<Pick<TraverseRule, 'start' | 'end'>>,
  frame: MapFrame,
  chosen: number | null,
): WalkOnMap {
  const stops = plan?.stops ?? []
  const legs = plan?.legs ?? []
  return {
    way: collected(
      legs.map(({ x, y }, leg) => {
        const nodes = Array.from(x, (_, node) => [x[node], y[node]] as const)
        const [from, to] = [stops.at(leg - 1), stops.at(leg)]
        // The nodes are those of the ground's grid; the stops lie a little beside them.
        if (from && leg > 0) nodes[0] = [from.x, from.y]
        if (to) nodes[nodes.length - 1] = [to.x, to.y]
        const coordinates = nodes.flatMap(([east, north]) => placed(frame.toDegrees(east, north)))
        return feature<LineString, null>({ type: 'LineString', coordinates }, null)
      }),
    ),
    stops: collected(
      stops.flatMap(({ x, y }, i) =>
        placed(frame.toDegrees(x, y)).map((coordinates) =>
          feature<Point, StopProperties>(
            { type: 'Point', coordinates },
            { number: i + 1, chosen: i === chosen },
          ),
        ),
      ),
    ),
    ends: collected([
      ...endPoint(ends.start, ends.end ? 'Start' : 'Start and end', frame),
      ...endPoint(ends.end, 'End', frame),
    ]),
  }
}

function endPoint(
  end: TraverseEnd | undefined,
  label: string,
  frame: MapFrame,
): Feature<Point, EndProperties>[] {
  if (!end) return []
  return placed(degreesOf(end, frame)).map((coordinates) =>
    feature({ type: 'Point', coordinates }, { label }),
  )
}

function degreesOf(end: TraverseEnd, frame: MapFrame): readonly [number, number] | null {
  if ('easting' in end) return frame.toDegrees(end.easting, end.northing)
  return [end.longitude, end.latitude]
}

function placed(degrees: readonly [number, number] | null): number[][] {
  return degrees ? [[...degrees]] : []
}

function feature<G extends Point | LineString, P>(geometry: G, properties: P): Feature<G, P> {
  return { type: 'Feature', geometry, properties }
}

function collected<G extends Point | LineString, P>(
  features: Feature<G, P>[],
): FeatureCollection<G, P> {
  return { type: 'FeatureCollection', features }
}
