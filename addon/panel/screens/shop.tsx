export function Shop() {
  return null;
}
