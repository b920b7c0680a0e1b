import { deflateRawSync } from 'node:zlib'

/** An archive of one file that may say another size than it has. */
export const zipOf = (name: string, plain: Buffer, declared = plain.length): Buffer => {
  const packed = deflateRawSync(plain)
  const head = Buffer.alloc(30)
  head.writeUInt32LE(0x04034b50, 0)
  head.writeUInt16LE(8, 8)
  head.writeUInt32LE(packed.length, 18)
  head.writeUInt32LE(declared, 22)
  head.writeUInt16LE(name.length, 26)
  const central = Buffer.alloc(46)
  central.writeUInt32LE(0x02014b50, 0)
  central.writeUInt16LE(8, 10)
  central.writeUInt32LE(packed.length, 20)
  central.writeUInt32LE(declared, 24)
  central.writeUInt16LE(name.length, 28)
  const end = Buffer.alloc(22)
  end.writeUInt32LE(0x06054b50, 0)
  end.writeUInt16LE(1, 8)
  end.writeUInt16LE(1, 10)
  end.writeUInt32LE(46 + name.length, 12)
  end.writeUInt32LE(30 + name.length + packed.length, 16)
  return Buffer.concat([head, Buffer.from(name), packed, central, Buffer.from(name), end])
}
