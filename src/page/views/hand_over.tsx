export function HandOver() {
  return <p>HandOver</p>;
}
