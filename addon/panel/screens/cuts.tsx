export function Cuts() {
  return null;
}
