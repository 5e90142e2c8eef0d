import { useLayoutEffect, useRef, useState, type RefObject } from 'react';

/** The width in pixels of what the ref is put on, kept up to date; `first` until it is known. */
export function useWidth<T extends HTMLElement>(first: number): readonly [RefObject<T | null>, number] {
  const box = useRef<T>(null);
  const [wide, setWide] = useState(first);
  useLayoutEffect(() => {
    const element = box.current;
    if (element === null || typeof ResizeObserver === 'undefined') return undefined;
    const observer = new ResizeObserver(([entry]) => {
      if (entry !== undefined && entry.contentRect.width > 0) setWide(entry.contentRect.width);
    });
    observer.observe(element);
    return () => observer.disconnect();
  }, []);
  return [box, wide];
}
