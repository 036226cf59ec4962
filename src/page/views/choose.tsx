export function Choose() {
  return <p>Choose</p>;
}
