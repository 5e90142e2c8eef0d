import type { Material } from './cuttingData.ts';

/** What goes on the cut: words for turning and drilling, and for tapping and threading. */
export type Fluid = { readonly cut: string; readonly thread: string };

/**
 * Cast iron is cut dry whatever is done (Machinery's Handbook, 31st ed., p. 1250); brass is turned and drilled dry in most shops,
 * though that table gives it light oil; aluminium wants paraffin, as old receipts and that table's mineral seal oil have it.
 */
export const FLUIDS: Readonly<Record<Material, Fluid>> = {
  'low-carbon-steel': { cut: 'Cutting oil', thread: 'Cutting oil' },
  'alloy-steel': { cut: 'Cutting oil', thread: 'Cutting oil' },
  'stainless-steel': { cut: 'Plenty of cutting oil', thread: 'Plenty of cutting oil' },
  'grey-iron': { cut: 'Dry', thread: 'Dry' },
  brass: { cut: 'Dry', thread: 'A little light oil' },
  aluminium: { cut: 'Paraffin or light oil', thread: 'Paraffin or light oil' },
};
