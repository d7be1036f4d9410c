// What part of a sheet is seen: zoom and pan.     (line/frame.ts)

/** The point of the sheet in the middle [mm] and the scale [pixels per mm]. */
export interface Frame {
  x: number;
  y: number;
  scale: number;
}

export interface Size {
  width: number;
  height: number;
}

const CLOSEST = 60; // pixels per mm
const MARGIN = 4; // pixels around a sheet that is fitted

/** The whole sheet, in the middle. */
export function fitted(sheet: Size, room: Size): Frame {
  const scale = Math.min((room.width - 2 * MARGIN) / sheet.width, (room.height - 2 * MARGIN) / sheet.height);
  return { x: sheet.width / 2, y: sheet.height / 2, scale: Math.max(scale, 0.05) };
}

const ENOUGH = 3.3; // pixels per mm of a sheet from which on its words can be read
const READ = 4; // the same without effort
const ASIDE = 26; // room that the names beside a line take [mm]

/** As it is first seen: the whole sheet; where its words would be too small for that, the line and its names. */
export function started(sheet: Size & { track: readonly { x: number; y: number }[] }, room: Size): Frame {
  const whole = fitted(sheet, room);
  if (whole.scale >= ENOUGH || sheet.track.length === 0) return whole;
  const [xs, ys] = [sheet.track.map((at) => at.x), sheet.track.map((at) => at.y)];
  const [left, right] = [Math.max(Math.min(...xs) - ASIDE, 0), Math.min(Math.max(...xs) + ASIDE, sheet.width)];
  const [top, bottom] = [Math.max(Math.min(...ys) - ASIDE, 0), Math.min(Math.max(...ys) + ASIDE, sheet.height)];
  const own = fitted({ width: right - left, height: bottom - top }, room);
  return { x: (left + right) / 2, y: (top + bottom) / 2, scale: Math.min(own.scale, READ) };
}

/** Nearer or farther by a factor, so that the point under the pointer [pixels in the room] stays where it is. */
export function zoomed(frame: Frame, by: number, at: { x: number; y: number }, room: Size, least: number): Frame {
  const scale = Math.min(Math.max(frame.scale * by, least), CLOSEST);
  const point = toSheet(frame, at, room);
  return {
    x: point.x - (at.x - room.width / 2) / scale,
    y: point.y - (at.y - room.height / 2) / scale,
    scale,
  };
}

/** Moved by so many pixels, but never so far that the sheet is lost from sight. */
export function panned(frame: Frame, dx: number, dy: number, sheet: Size): Frame {
  const x = Math.min(Math.max(frame.x - dx / frame.scale, 0), sheet.width);
  const y = Math.min(Math.max(frame.y - dy / frame.scale, 0), sheet.height);
  return { ...frame, x, y };
}

export function toSheet(frame: Frame, at: { x: number; y: number }, room: Size): { x: number; y: number } {
  return { x: frame.x + (at.x - room.width / 2) / frame.scale, y: frame.y + (at.y - room.height / 2) / frame.scale };
}

export function toRoom(frame: Frame, at: { x: number; y: number }, room: Size): { x: number; y: number } {
  return { x: room.width / 2 + (at.x - frame.x) * frame.scale, y: room.height / 2 + (at.y - frame.y) * frame.scale };
}

export function viewBox(frame: Frame, room: Size): string {
  const corner = toSheet(frame, { x: 0, y: 0 }, room);
  return `${corner.x} ${corner.y} ${room.width / frame.scale} ${room.height / frame.scale}`;
}
