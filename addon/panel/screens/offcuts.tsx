export function Offcuts() {
  return null;
}
