import type { Farm, FarmProduct, Lab } from "../model.ts";
import { everyField } from "./everyField.ts";

const unpriced = (product: FarmProduct): FarmProduct => ({
  ...product,
  product: { ...product.product, price: undefined },
  lime: product.lime && { ...product.lime, pricePerTon: undefined },
  fertilizer: product.fertilizer && { ...product.fertilizer, pricePerTon: undefined },
});

const withoutFees = (lab: Lab): Lab => ({
  ...lab,
  packages: Object.fromEntries(Object.entries(lab.packages).map(([id, offered]) => [id, { ...offered, fee: undefined }])),
});

/** No price of a product and no fee of a laboratory: every sum of money rests on one of them. */
export const withoutCosts = (farm: Farm): Farm =>
  everyField(
    {
      ...farm,
      pricesOn: undefined,
      products: new Map([...farm.products].map(([id, product]) => [id, unpriced(product)])),
      labs: new Map([...farm.labs].map(([id, lab]) => [id, withoutFees(lab)])),
    },
    {
      sampling: (s) => ({ ...s, lab: withoutFees(s.lab) }),
      application: (a) => ({ ...a, product: unpriced(a.product) }),
      planned: (p) => ({ ...p, starter: p.starter && { ...p.starter, fertilizer: { ...p.starter.fertilizer, pricePerTon: undefined } } }),
    },
  );
