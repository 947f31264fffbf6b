import type { PictureUnit } from "@/components/vacuum-picture/scale";
import type { UnitChoices } from "../units/quantity-kinds";

/** The unit of the picture: the one vacuum is typed in. */
export function pictureUnit(choices: UnitChoices): PictureUnit {
  return choices.vacuum === "Pa" || choices.vacuum === "mbar" ? choices.vacuum : "micron";
}
