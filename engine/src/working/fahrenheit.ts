/** Degrees Fahrenheit of degrees Celsius, to a tenth (by definition of the two scales). */
export const fahrenheitOf = (celsius: number): number => Number((celsius * 1.8 + 32).toFixed(1))
