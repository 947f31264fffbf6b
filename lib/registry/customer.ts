import * as z from "zod";
import { email, line, optionalNumber, paragraph, requiredLine, tick, timeZone } from "./fields";

export const customerForm = z
  .strictObject({
    name: requiredLine(200, "Give the customer's name."),
    phone: line(60),
    email,
    mayWrite: tick,
    note: paragraph(4000),
  })
  .refine(({ email: address, mayWrite }) => !mayWrite || address !== "", {
    path: ["email"],
    error: "Give the address that may be written to.",
  });
export type CustomerFields = z.output<typeof customerForm>;

/** A site of a customer; its position is both figures or neither. */
export const siteForm = z
  .strictObject({
    name: requiredLine(200, "Give the site a name people will recognise."),
    street: line(300),
    city: line(120),
    postalCode: line(20),
    region: line(120),
    country: line(60),
    timeZone,
    latitude: optionalNumber({ min: -90, max: 90 }),
    longitude: optionalNumber({ min: -180, max: 180 }),
    accessNote: paragraph(2000),
  })
  .refine(({ latitude, longitude }) => latitude === null || longitude !== null, {
    path: ["longitude"],
    error: "A position needs both figures.",
  })
  .refine(({ latitude, longitude }) => longitude === null || latitude !== null, {
    path: ["latitude"],
    error: "A position needs both figures.",
  });
export type SiteFields = z.output<typeof siteForm>;
