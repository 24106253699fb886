/** Exact fractions, no more of them than the work copy needs: every exported card carries this. */

export class Exact {
  private constructor(
    private readonly n: bigint,
    private readonly d: bigint,
  ) {}

  /** `d` is not zero. */
  static of(n: bigint, d: bigint): Exact {
    return d < 0n ? new Exact(-n, -d) : new Exact(n, d);
  }

  add({ n, d }: Exact): Exact {
    return Exact.of(this.n * d + n * this.d, this.d * d);
  }

  sub({ n, d }: Exact): Exact {
    return Exact.of(this.n * d - n * this.d, this.d * d);
  }

  mul({ n, d }: Exact): Exact {
    return Exact.of(this.n * n, this.d * d);
  }

  div({ n, d }: Exact): Exact {
    return Exact.of(this.n * d, this.d * n);
  }

  compare({ n, d }: Exact): number {
    const difference = this.n * d - n * this.d;
    return difference < 0n ? -1 : difference > 0n ? 1 : 0;
  }

  /** In decimal digits, rounded to six places at most. */
  toString(): string {
    const places = 6;
    const size = this.n < 0n ? -this.n : this.n;
    const rounded = (2n * size * BigInt(10 ** places) + this.d) / (2n * this.d);
    const digits = rounded.toString().padStart(places + 1, '0');
    const sign = this.n < 0n && rounded > 0n ? '-' : '';
    return `${sign}${digits.slice(0, -places)}.${digits.slice(-places)}`.replace(/\.?0+$/, '');
  }
}

/** Reads a decimal number or a fraction of two whole ones: `-24.5`, `5/9`. */
export function exact(text: string): Exact {
  const [number = '', divisor = '1'] = text.split('/');
  const [whole = '', places = ''] = number.split('.');
  return Exact.of(BigInt(whole + places), 10n ** BigInt(places.length) * BigInt(divisor));
}
