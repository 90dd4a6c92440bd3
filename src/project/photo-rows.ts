/** Photos of all stations as the layers take them. */
import type { PhotoRow } from '../layers/photos-geojson'
import type { Station } from '../places/station'
import { directionLooked, isMarked, millimetresPerPixel, type Photo } from './photos'
import type { Results } from './results'

/** A row a photo, in the order of the stations and of the photos of each. */
export function photoRows(results: Results): PhotoRow[] {
  return stationPhotos(results).map(({ station, photo }) => photoRow(station, photo))
}

/** The photos themselves, in the same order. */
export function stationPhotos({
  placement,
  written,
}: Results): readonly { readonly station: Station; readonly photo: Photo }[] {
  return placement.stations.flatMap((station, number) =>
    written.records[number].photos.map((photo) => ({ station, photo })),
  )
}

function photoRow(station: Station, photo: Photo): PhotoRow {
  const { width, height, place, file, sha256, caption, taken } = photo
  const { longitude, latitude } = place ?? station.position
  return {
    station: station.name,
    photo: file,
    sha256,
    isMarked: isMarked(photo),
    caption,
    taken: taken ?? null,
    direction: directionLooked(photo),
    width,
    height,
    millimetresPerPixel: millimetresPerPixel(photo),
    spots: photo.spots.map(({ at, scan, millimetres }) => ({
      x: at[0] * width,
      y: at[1] * height,
      scan: scan ?? null,
      millimetres: millimetres ?? null,
    })),
    place: longitude === null || latitude === null ? null : [longitude, latitude],
    placeOf: place ? 'camera' : 'station',
    accuracy: place?.accuracy ?? null,
  }
}
