/** Cylinders on the scale, while gas goes in or comes out. */
export const cylindersWords = {
  anotherCylinder: "Another cylinder",
  takeOffTheList: "Take off the list",
  grossBefore: "Gross before",
  grossNowOrAfter: "Gross now or after",
  putACylinder: "Put a cylinder on the scale",
  chooseACylinder: "Choose a cylinder",
  oneThat: "One that is not in the register",
  numberOnIt: "Number on it",
};
