// Who and what an entry speaks of: 16 random bytes each, spelled in hex.
#pragma once

#include "core/canon/hash.h"

namespace brimful {

using YardId = canon::Bytes<16, struct YardTag>;
using DeviceId = canon::Bytes<16, struct DeviceTag>;
using PersonId = canon::Bytes<16, struct PersonTag>;
using VesselId = canon::Bytes<16, struct VesselTag>; // first half of the hash of the admitting entry
using BootId = canon::Bytes<16, struct BootTag>;
using Hash = canon::Hash;
using PublicKey = canon::Bytes<32, struct PublicKeyTag>; // Ed25519
using Signature = canon::Bytes<64, struct SignatureTag>; // Ed25519

} // namespace brimful
