/** The pad for numbers: its keys and what it says of an unlikely one. */
export const numberPadWords = {
  usually: (low: string, high: string, unit: string) => `usually ${low} to ${high} ${unit}`,
  lowerThanUsual: "Lower than usual",
  higherThanUsual: "Higher than usual",
  checkUnitAndInstrument: "Check the unit and the instrument, then confirm if it is so.",
  changeSign: "Change sign",
  decimalPoint: "Decimal point",
  deleteTheLastDigit: "Delete the last digit",
  clear: "Clear",
  clearKey: "C",
  record: "Record",
};
