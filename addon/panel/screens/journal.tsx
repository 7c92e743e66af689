export function Journal() {
  return null;
}
