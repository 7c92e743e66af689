/** A longer list that begins like this one. */
export function grown<T extends Int32Array | Float64Array | Uint8Array>(list: T, longer: T): T {
  longer.set(list);
  return longer;
}
