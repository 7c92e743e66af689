export function Held() {
  return null;
}
