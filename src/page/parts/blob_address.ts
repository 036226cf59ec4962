import { useEffect, useState } from 'preact/hooks';

/** An address under which the page can show a blob, as long as the component lives. */
export function useBlobAddress(blob: Blob | null): string | undefined {
  const [address, setAddress] = useState<string>();
  useEffect(() => {
    if (!blob) return undefined;
    const made = URL.createObjectURL(blob);
    setAddress(made);
    return () => {
      URL.revokeObjectURL(made);
      setAddress(undefined);
    };
  }, [blob]);
  return address;
}
