"""Stage 6: syntax trees and numbers to knitted fabric, size by size."""
