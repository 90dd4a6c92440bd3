/** Draws marks into a copy of a picture, for those who have no way to lay them over it. */
import type { Photo } from '../../project/photos'
import { letterSize, markShapes, type MarkShape } from './mark-shapes'

/** Ink on a rim of paper, so that both light and dark rock lets it be seen; as print has it. */
const INK = 'black'
const PAPER = 'white'
const QUALITY = 0.9

type Context = OffscreenCanvasRenderingContext2D

/**
 * A copy of a kept picture with its marks drawn in, as JPEG.
 *
 * @throws Error where the browser cannot draw it
 */
export async function drawnPicture(picture: Blob, photo: Photo, station: string): Promise<Blob> {
  const bitmap = await createImageBitmap(picture)
  try {
    const canvas = new OffscreenCanvas(photo.width, photo.height)
    const context = canvas.getContext('2d')
    if (!context) throw new Error('no canvas')
    context.drawImage(bitmap, 0, 0, photo.width, photo.height)
    const size = letterSize(photo)
    context.font = `600 ${size}px 'Atkinson Hyperlegible Next Variable', sans-serif`
    context.textBaseline = 'middle'
    context.lineJoin = 'round'
    for (const shape of markShapes(photo, station)) draw(context, shape, size)
    return await canvas.convertToBlob({ type: 'image/jpeg', quality: QUALITY })
  } finally {
    bitmap.close()
  }
}

function draw(context: Context, shape: MarkShape, size: number): void {
  switch (shape.kind) {
    case 'line':
      stroke(context, size, () => {
        context.moveTo(...shape.from)
        context.lineTo(...shape.to)
      })
      break
    case 'ring':
      stroke(context, size, () => context.arc(shape.x, shape.y, shape.radius, 0, 2 * Math.PI))
      break
    case 'words':
      words(context, shape, size)
      break
    case 'bar':
      plate(context, shape.x, shape.y - size, barWidth(context, shape), size, size)
      context.fillStyle = INK
      context.fillRect(shape.x, shape.y - size / 4, shape.length, size / 4)
      context.textAlign = 'left'
      context.fillText(shape.words, shape.x, shape.y - size)
      break
  }
}

/** A path in ink over a wider one of paper. */
function stroke(context: Context, size: number, path: () => void): void {
  for (const [colour, part] of [
    [PAPER, 0.3],
    [INK, 0.12],
  ] as const) {
    context.beginPath()
    path()
    context.strokeStyle = colour
    context.lineWidth = Math.max(1, part * size)
    context.stroke()
  }
}

function words(
  context: Context,
  { x, y, text, isOnPlate, align }: Extract<MarkShape, { kind: 'words' }>,
  size: number,
): void {
  context.textAlign = align
  if (isOnPlate) plate(context, x, y, context.measureText(text).width, size, size / 2)
  else {
    context.strokeStyle = PAPER
    context.lineWidth = 0.3 * size
    context.strokeText(text, x, y)
  }
  context.fillStyle = INK
  context.fillText(text, x, y)
}

/** Paper behind a line of words whose middle is at `y`, and so much of it under that middle. */
function plate(
  context: Context,
  x: number,
  y: number,
  width: number,
  size: number,
  below: number,
): void {
  const margin = size / 2
  context.fillStyle = PAPER
  context.fillRect(x - margin, y - size, width + size, size + below + margin / 2)
}

function barWidth(context: Context, bar: Extract<MarkShape, { kind: 'bar' }>): number {
  return Math.max(bar.length, context.measureText(bar.words).width)
}
