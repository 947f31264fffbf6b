"use client";

import { usePathname } from "next/navigation";
import { Button } from "./button";
import { Menu } from "./menu";

/** The places that do not fit into a narrow line; the button names the one that is open. */
export function MorePlaces({ places }: { places: readonly { readonly href: string; readonly label: string }[] }) {
  const path = usePathname() ?? "";
  const here = places.find(({ href }) => path === href || path.startsWith(`${href}/`));
  return (
    <Menu
      label="More places"
      trigger={<Button kind="plain">{here ? `More: ${here.label}` : "More"}</Button>}
      items={places.map(({ href, label }) => ({ id: href, href, label }))}
    />
  );
}
