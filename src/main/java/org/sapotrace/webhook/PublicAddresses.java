package org.sapotrace.webhook;

import java.math.BigInteger;
import java.net.Inet4Address;
import java.net.InetAddress;
import java.util.List;

/**
 * Tells the addresses of the public internet from all others: this machine, networks at home,
 * addresses for documentation and tests, and those that stand for another address.
 */
final class PublicAddresses {

  /**
   * All addresses that begin with the same bits.
   *
   * @param beginning those bits
   * @param others how many bits follow
   */
  private record Network(BigInteger beginning, int others) {

    /** The network of an address in hexadecimal that begins with so many bits. */
    static Network of(String address, int bits) {
      int others = 4 * address.length() - bits;
      return new Network(new BigInteger(address, 16).shiftRight(others), others);
    }

    boolean contains(BigInteger address) {
      return address.shiftRight(others).equals(beginning);
    }
  }

  // IANA's registry of IPv4 special-purpose addresses (RFC 6890), multicast and what is reserved.
  private static final List<Network> NOT_PUBLIC_4 =
      List.of(
          Network.of("00000000", 8), // this network
          Network.of("0a000000", 8), // private
          Network.of("64400000", 10), // behind a carrier's translation
          Network.of("7f000000", 8), // loopback
          Network.of("a9fe0000", 16), // link-local, and what clouds tell their machines
          Network.of("ac100000", 12), // private
          Network.of("c0000000", 24), // protocol assignments
          Network.of("c0000200", 24), // documentation
          Network.of("c0586300", 24), // 6to4 relays
          Network.of("c0a80000", 16), // private
          Network.of("c6120000", 15), // benchmarks
          Network.of("c6336400", 24), // documentation
          Network.of("cb007100", 24), // documentation
          Network.of("e0000000", 4), // multicast
          Network.of("f0000000", 4)); // reserved, broadcast

  private static final String REST_OF_6 = "0".repeat(24);

  // Of IPv6 only this block is given out for the public internet; loopback, IPv4 in disguise
  // (::ffff:0:0/96, 64:ff9b::/96), unique local, link-local and multicast lie outside.
  private static final Network GLOBAL_6 = Network.of("20000000" + REST_OF_6, 3);

  private static final List<Network> NOT_PUBLIC_6 =
      List.of(
          Network.of("20010000" + REST_OF_6, 23), // protocol assignments, Teredo among them
          Network.of("20010db8" + REST_OF_6, 32), // documentation
          Network.of("20020000" + REST_OF_6, 16), // 6to4: an IPv4 address in disguise
          Network.of("3fff0000" + REST_OF_6, 20)); // documentation

  private PublicAddresses() {}

  static boolean contains(InetAddress address) {
    BigInteger bits = new BigInteger(1, address.getAddress());
    if (address instanceof Inet4Address) {
      return NOT_PUBLIC_4.stream().noneMatch(network -> network.contains(bits));
    }
    return GLOBAL_6.contains(bits)
        && NOT_PUBLIC_6.stream().noneMatch(network -> network.contains(bits));
  }
}
