export function Drying() {
  return null;
}
