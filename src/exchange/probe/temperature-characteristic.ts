/**
 * Environmental Sensing over Bluetooth: the service and its temperature characteristic, by their assigned numbers.
 * @source Bluetooth SIG, Assigned Numbers; GATT Specification Supplement, "Temperature" [at second hand]
 */
export const ENVIRONMENTAL_SENSING = 0x181a;
export const TEMPERATURE = 0x2a6e;

/** The value that stands for "not known". */
const NOT_KNOWN = -0x8000;

/**
 * The temperature in a value of the characteristic: a signed 16-bit number, low byte first, in hundredths of a degree.
 * @returns °C; null where the sensor says that it does not know, or where the value is too short to be one
 */
export function readTemperature(value: DataView): number | null {
  if (value.byteLength < 2) return null;
  const hundredths = value.getInt16(0, true);
  return hundredths === NOT_KNOWN ? null : hundredths / 100;
}
