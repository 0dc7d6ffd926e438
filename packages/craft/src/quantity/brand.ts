declare const unit: unique symbol

/** A finite number that carries its unit in the type only; nothing is left of it at run time. */
export type Quantity<U extends string> = number & { readonly [unit]: U }

export type Kilograms = Quantity<'kg'>
export type Celsius = Quantity<'°C'>
/** A temperature difference, never a reading. */
export type Kelvins = Quantity<'K'>
export type Millimetres = Quantity<'mm'>
export type Minutes = Quantity<'min'>
/** Percent by mass, 0 to 100 where it is a share. */
export type Percent = Quantity<'%'>

const ABSOLUTE_ZERO_C = -273.15

const checked = <U extends string>(value: number, name: string, min: number): Quantity<U> => {
  if (!(Number.isFinite(value) && value >= min))
    throw new RangeError(`${name}(${value}): allowed: a finite number, at least ${min}`)
  return value as Quantity<U>
}

/** @throws RangeError when not finite or below zero. */
export const kilograms = (value: number): Kilograms => checked(value, 'kilograms', 0)
/** @throws RangeError when not finite or below absolute zero. */
export const celsius = (value: number): Celsius => checked(value, 'celsius', ABSOLUTE_ZERO_C)
/** @throws RangeError when not finite. */
export const kelvins = (value: number): Kelvins => checked(value, 'kelvins', -Number.MAX_VALUE)
/** @throws RangeError when not finite or below zero. */
export const millimetres = (value: number): Millimetres => checked(value, 'millimetres', 0)
/** @throws RangeError when not finite or below zero. */
export const minutesOf = (value: number): Minutes => checked(value, 'minutesOf', 0)
/** @throws RangeError when not finite or below zero. */
export const percent = (value: number): Percent => checked(value, 'percent', 0)
