export function See() {
  return <p>See</p>;
}
