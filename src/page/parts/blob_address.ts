import { useEffect, useMemo } from 'preact/hooks';

/** An address under which the page can show a blob, until another takes its place or the component is gone. */
export function useBlobAddress(blob: Blob | null): string | undefined {
  const address = useMemo(() => (blob ? URL.createObjectURL(blob) : undefined), [blob]);
  useEffect(() => {
    return () => {
      if (address) URL.revokeObjectURL(address);
    };
  }, [address]);
  return address;
}
