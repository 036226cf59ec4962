export function Plan() {
  return <p>Plan</p>;
}
